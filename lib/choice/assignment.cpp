#include "choice/assignment.hpp"

#include <algorithm>
#include <cassert>
#include <limits>

namespace farflung::choice {
namespace {

constexpr int kFree = -1;

class Assigner {
 public:
  Assigner(int rows, int columns, const std::vector<double>& cost)
      : columns_(columns), cost_(cost), u_(rows, 0.0), v_(columns, 0.0), row_of_(columns, kFree), column_of_(rows) {}

  std::vector<int> run() {
    for (int row = 0; row < static_cast<int>(u_.size()); ++row) augment(row);
    return column_of_;
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

std::vector<int> cheapest_assignment(int rows, int columns, const std::vector<double>& cost) {
  assert(rows <= columns && cost.size() == static_cast<std::size_t>(rows) * columns);
  return Assigner(rows, columns, cost).run();
}

}  // namespace farflung::choice
