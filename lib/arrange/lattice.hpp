// Starts in which every print lies on a lattice of its own: where prints are dealt evenly nothing lies further apart.
#pragma once

#include <vector>

#include "arrange/chain.hpp"

namespace farflung::arrange {

/// A grid parted into classes, each a lattice of the same steps: by place (row by row), its class.
using Parting = std::vector<int>;

/// Every way to part a grid into `classes` translates of one lattice (its Hermite normal forms).
std::vector<Parting> lattice_partings(int rows, int columns, int classes);

/// Blocks laid so that each print fills a class as far as its copies go, the most copies on the largest classes; what
/// is left over fills the rest. `print` by block, kNone a blank.
std::vector<Held> lattice_start(const Parting& parting, const std::vector<int>& print);

}  // namespace farflung::arrange
