// Parts of a pattern that the trade makes in one go: flying geese, and corners sewn on and flipped.
#pragma once

#include <vector>

#include "block/pattern.hpp"

namespace farflung::cloth {

/// A long triangle with a short one on each side, together a rectangle twice as wide as high. Patches by index.
struct Goose {
  int goose = 0;
  int sky_a = 0, sky_b = 0;
  Length long_side;  ///< finished
};
/// Every such three patches, whichever way the long triangle points, in the order of the long ones.
std::vector<Goose> geese_of(const block::Pattern& pattern);

/// A patch that is a rectangle but for corners, each filled by a triangle with equal short sides.
struct CorneredPatch {
  int patch = 0;
  std::vector<int> corners;  ///< the triangles' patches
  Length width, height;      ///< of the whole rectangle, finished
};

/// Never a patch that is a triangle itself: two triangles are a half-square unit, and geese are listed apart.
std::vector<CorneredPatch> cornered_patches(const block::Pattern& pattern);

/// Finished block widths, below and above this pattern's own (which is neither), at which every side that lies along
/// the block comes to a mark of the ruler: at most `count` each way, nearest first. Height follows in proportion.
/// Empty where the pattern's sides have no such size within half and twice its own.
struct BlockSizes {
  std::vector<Length> smaller, larger;
};
BlockSizes sizes_on_ruler(const block::Pattern& pattern, Length step, int count = 2);

/// Whether every side that lies along the block comes to a multiple of `step`.
bool on_steps(const block::Pattern& pattern, Length step);

}  // namespace farflung::cloth
