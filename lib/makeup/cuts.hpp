// Pieces as the cutting gives them: triangles come in twos, fours and eights from one square.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::makeup {

/// Triangles of one size in a slot, and how they are cut: so many at once from one square, so many to a block.
struct Cut {
  int pieces = 1;     ///< from one square: 2, 4 or 8 half-square triangles, 4 quarter-square triangles
  int per_block = 1;  ///< how many of them a block's slot holds
  double side = 0;    ///< inches, their finished leg

  friend bool operator==(const Cut&, const Cut&) = default;
};

/// How many half-square triangles one square gives: 2 where it is cut once on the diagonal; 4 or 8 where a larger one
/// is cut across the middle as well, once or both ways. Ways of sewing two squares together before they are cut give
/// their halves in the same numbers.
struct HalfSquares {
  int from_square = 2;
};

/// The triangles among a slot's patches, in the order in which they are met; none where all is cut piece by piece.
/// Half-square triangles have their legs along the block, quarter-square triangles their long side.
std::vector<Cut> cuts_of(const block::Pattern& pattern, int slot, HalfSquares halves = {});

/// The fewest blocks whose triangles use whole squares up.
int blocks_of_whole_squares(const std::vector<Cut>& cuts);

/// Triangles that are cut and not used, because they come in twos, fours or eights.
struct LeftOver {
  int print = 0;
  double side = 0;  ///< inches, finished leg
  int pieces = 0;
};

/// Of all blocks that are not sewn; triangles of one size and print are used in whichever slot asks for them.
std::vector<LeftOver> left_over(const quilt::Quilt& quilt, HalfSquares halves = {});

}  // namespace farflung::makeup
