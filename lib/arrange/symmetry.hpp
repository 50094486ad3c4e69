// Ways to lay a grid upon itself that leave every weight between its places as it is.
#pragma once

#include <vector>

#include "score/kernel.hpp"

namespace farflung::arrange {

/// By place, the place that it comes to lie on.
using Symmetry = std::vector<int>;

/// Every place upon itself.
Symmetry identity(int places);

/// Shifts, mirrorings and the exchange of rows for columns that leave `kernel`, a table of rows x columns places row by
/// row, exactly as it is; as it stands first. They are found by trying, so that every boundary gives its own: a torus
/// has all shifts, a bounded grid none.
std::vector<Symmetry> symmetries_of(const score::Kernel& kernel, int rows, int columns);

}  // namespace farflung::arrange
