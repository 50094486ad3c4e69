// Pieces as the cutting gives them: triangles come in twos and fours from one square.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::makeup {

/// How a slot's pieces are cut: so many at once from one square, so many to a block.
struct Cut {
  int pieces = 1;     ///< from one square: 2 half-square triangles, 4 quarter-square triangles, 1 of anything else
  int per_block = 1;  ///< how many patches of a block the slot fills
  double side = 0;    ///< inches, the finished leg of the triangles; 0 for anything else

  friend bool operator==(const Cut&, const Cut&) = default;

  /// The fewest blocks that use whole squares up.
  int blocks() const;
};

/// Half-square triangles have their legs along the block, quarter-square triangles their long side; a slot whose
/// patches are not all alike is cut piece by piece.
Cut cut_of(const block::Pattern& pattern, int slot);

/// Triangles that are cut and not used, because they come in twos and fours.
struct LeftOver {
  int print = 0;
  double side = 0;  ///< inches, finished leg
  int pieces = 0;
};

/// Of all blocks that are not sewn; triangles of one size and print are used in whichever slot asks for them.
std::vector<LeftOver> left_over(const quilt::Quilt& quilt);

}  // namespace farflung::makeup
