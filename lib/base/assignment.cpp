#include "base/assignment.hpp"

#include <algorithm>
#include <cassert>
#include <limits>

namespace farflung {
namespace {

constexpr int kFree = -1;

class Assigner {
 public:
  Assigner(int rows, int columns, const std::vector<double>& cost)
      : columns_(columns), cost_(cost), u_(rows, 0.0), v_(columns, 0.0), row_of_(columns, kFree), column_of_(rows) {}

  Assignment run() {
    for (int row = 0; row < static_cast<int>(u_.size()); ++row) augment(row);
    return {column_of_, u_, v_};
  }

 private:
  // Dijkstra over reduced costs from `start` to the nearest free column; then prices and pairs change along the path.
  void augment(int start) {
    shortest_.assign(columns_, std::numeric_limits<double>::infinity());
    from_row_.assign(columns_, kFree);
    reached_.assign(columns_, false);
    double way = 0;
    int row = start, sink = kFree;
    while (sink == kFree) {
      int nearest = kFree;
      for (int column = 0; column < columns_; ++column) {
        if (reached_[column]) continue;
        const double reduced = way + cost_[static_cast<std::size_t>(row) * columns_ + column] - u_[row] - v_[column];
        if (reduced < shortest_[column]) {
          shortest_[column] = reduced;
          from_row_[column] = row;
        }
        if (nearest == kFree || shortest_[column] < shortest_[nearest]) nearest = column;
      }
      way = shortest_[nearest];
      reached_[nearest] = true;
      row = row_of_[nearest];
      if (row == kFree) sink = nearest;
    }
    u_[start] += way;
    for (int column = 0; column < columns_; ++column) {
      if (!reached_[column]) continue;
      if (column != sink) u_[row_of_[column]] += way - shortest_[column];
      v_[column] -= way - shortest_[column];
    }
    for (int column = sink;;) {
      const int giver = from_row_[column];
      row_of_[column] = giver;
      std::swap(column_of_[giver], column);
      if (giver == start) return;
    }
  }

  int columns_;
  const std::vector<double>& cost_;
  std::vector<double> u_, v_;  // the prices of rows and columns, Crouse's u and v
  std::vector<int> row_of_, column_of_;
  std::vector<double> shortest_;
  std::vector<int> from_row_;
  std::vector<bool> reached_;
};

}  // namespace

Assignment cheapest_assignment(int rows, int columns, const std::vector<double>& cost) {
  assert(rows <= columns && cost.size() == static_cast<std::size_t>(rows) * columns);
  return Assigner(rows, columns, cost).run();
}

std::vector<double> costs_of_forcing(const Assignment& cheapest, int rows, int columns,
                                     const std::vector<double>& cost) {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  std::vector<double> forcing(cost.size());
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const std::size_t at = static_cast<std::size_t>(row) * columns + column;
      forcing[at] = std::max(0.0, cost[at] - cheapest.row_price[row] - cheapest.column_price[column]);
    }
  }
  // Who loses a column takes another's, and so on, until the first row's own is taken: the way from row to row, each
  // step as long as its reduced cost. The last node stands for all that have the free columns, at no cost to them.
  const int nodes = rows + 1, nobody = rows;
  std::vector<int> owner(columns, nobody);
  for (int row = 0; row < rows; ++row) owner[cheapest.column[row]] = row;
  std::vector<double> way(static_cast<std::size_t>(nodes) * nodes, kInfinity);
  const auto between = [&](int from, int to) -> double& { return way[static_cast<std::size_t>(from) * nodes + to]; };
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      double& step = between(row, owner[column]);
      step = std::min(step, forcing[static_cast<std::size_t>(row) * columns + column]);
    }
    between(nobody, row) = -cheapest.column_price[cheapest.column[row]];
  }
  for (int node = 0; node < nodes; ++node) between(node, node) = 0;
  // Floyd and Warshall (doi:10.1145/367766.368168).
  for (int through = 0; through < nodes; ++through) {
    for (int from = 0; from < nodes; ++from) {
      const double half = between(from, through);
      for (int to = 0; to < nodes; ++to) {
        between(from, to) = std::min(between(from, to), half + between(through, to));
      }
    }
  }
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      forcing[static_cast<std::size_t>(row) * columns + column] += between(owner[column], row);
    }
  }
  return forcing;
}

}  // namespace farflung
