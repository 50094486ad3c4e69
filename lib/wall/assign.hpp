// Who goes where, all at once.
#pragma once

#include <vector>

namespace farflung::wall {

struct Assignment {
  std::vector<int> column;      ///< by row
  std::vector<double> reduced;  ///< rows x columns: how much dearer the whole would be at least, were it forced
};

/// The cheapest way to give each row a column of its own; rows <= columns. `cost` row by row. O(rows^2 columns).
/// Kuhn's Hungarian method by shortest augmenting paths (Jonker and Volgenant 1987, doi:10.1007/BF02278710).
Assignment assigned(const std::vector<double>& cost, int rows, int columns);

}  // namespace farflung::wall
