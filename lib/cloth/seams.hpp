// The geometry of seams inside a block, shared by the search for an order and the choice of pressing.
#pragma once

#include <optional>
#include <vector>

#include "block/pattern.hpp"

namespace farflung::cloth {

/// A point, without the rounding of Length.
struct Spot {
  double x = 0, y = 0;  ///< inches on the unturned block
};

/// A stretch of boundary between two groups of patches; inches.
struct Stretch {
  Spot from, to;
  /// Of the first and of the second group.
  int patch_a = 0, patch_b = 0;
};

/// Everything that two groups of patches share, pair by pair.
std::vector<Stretch> shared_boundary(const block::Pattern& pattern, const std::vector<int>& a,
                                     const std::vector<int>& b);

/// The one straight line that holds all of them, from end to end; none where they turn a corner or there are none.
std::optional<Stretch> straight_line(const std::vector<Stretch>& stretches);

/// Parts a set of patches by a straight line that crosses none of them: lines along the block's edges before slanting
/// ones, halves as equal as can be; false where there is none.
bool parted(const block::Pattern& pattern, const std::vector<int>& patches, std::vector<int>& first,
            std::vector<int>& second);

}  // namespace farflung::cloth
