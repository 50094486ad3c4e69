// Giving each of some things one of others at the least cost.
#pragma once

#include <vector>

namespace farflung::choice {

/// `cost` is rows x columns, rows <= columns. For each row a column of its own, so that the sum of their costs is the
/// least there is. Shortest augmenting paths, O(rows^2 columns) (Crouse 2016, doi:10.1109/TAES.2016.140952).
std::vector<int> cheapest_assignment(int rows, int columns, const std::vector<double>& cost);

}  // namespace farflung::choice
