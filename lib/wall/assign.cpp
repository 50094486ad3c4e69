#include "wall/assign.hpp"

#include <cassert>
#include <limits>

namespace farflung::wall {

Assignment assigned(const std::vector<double>& cost, int rows, int columns) {
  assert(rows <= columns);
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  const auto at = [&](int r, int c) { return cost[static_cast<std::size_t>(r) * columns + c]; };
  // Row and column 0 are the method's own; the caller's start at 1.
  std::vector<double> u(rows + 1, 0.0), v(columns + 1, 0.0);
  std::vector<int> row_of(columns + 1, 0), way(columns + 1, 0);
  for (int row = 1; row <= rows; ++row) {
    row_of[0] = row;
    int column = 0;
    std::vector<double> slack(columns + 1, kInfinity);
    std::vector<bool> used(columns + 1, false);
    do {
      used[column] = true;
      const int here = row_of[column];
      double least = kInfinity;
      int next = 0;
      for (int c = 1; c <= columns; ++c) {
        if (used[c]) continue;
        const double reduced = at(here - 1, c - 1) - u[here] - v[c];
        if (reduced < slack[c]) slack[c] = reduced, way[c] = column;
        if (slack[c] < least) least = slack[c], next = c;
      }
      for (int c = 0; c <= columns; ++c) {
        if (used[c]) {
          u[row_of[c]] += least;
          v[c] -= least;
        } else {
          slack[c] -= least;
        }
      }
      column = next;
    } while (row_of[column] != 0);
    do {
      const int before = way[column];
      row_of[column] = row_of[before];
      column = before;
    } while (column != 0);
  }
  Assignment result;
  result.column.assign(rows, 0);
  for (int c = 1; c <= columns; ++c) {
    if (row_of[c] != 0) result.column[row_of[c] - 1] = c - 1;
  }
  result.reduced.resize(cost.size());
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < columns; ++c) {
      result.reduced[static_cast<std::size_t>(r) * columns + c] = at(r, c) - u[r + 1] - v[c + 1];
    }
  }
  return result;
}

}  // namespace farflung::wall
