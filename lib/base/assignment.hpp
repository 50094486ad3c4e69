// Giving each of some things one of others at the least cost.
#pragma once

#include <vector>

namespace farflung {

/// The rows given to columns, and the prices that prove that no other way is cheaper (linear programming duals).
struct Assignment {
  std::vector<int> column;                      ///< by row: no column twice
  std::vector<double> row_price, column_price;  ///< no cost is below the sum of its two prices; those given equal it
};

/// `cost` is rows x columns, rows <= columns. For each row a column of its own, so that the sum of their costs is the
/// least there is. Shortest augmenting paths, O(rows^2 columns) (Crouse 2016, doi:10.1109/TAES.2016.140952).
Assignment cheapest_assignment(int rows, int columns, const std::vector<double>& cost);

/// rows x columns: by how much dearer the whole would be at the least, were this row to have this column; 0 for those
/// given. Exact, O(rows^3 + rows columns).
std::vector<double> costs_of_forcing(const Assignment& cheapest, int rows, int columns,
                                     const std::vector<double>& cost);

}  // namespace farflung
