// The truth about touches: how few any layout can have, proved.
#pragma once

#include <vector>

#include "score/measure.hpp"

namespace farflung::score {

/// What forces a print's touches.
enum class Cause {
  none,      ///< nothing is proved to
  crowded,   ///< more copies than the places can keep apart
  kept,      ///< kept cells: without them there would be fewer
  turns,     ///< sewn blocks' turns
  patterns,  ///< the cells of the pattern that it lies in
};

/// What is proved of one print.
struct PrintBound {
  int print = 0;
  int copies = 0;      ///< the least number of blocks with the print that must be placed
  int most_apart = 0;  ///< of its blocks, the most that can lie without a touch; at least this many
  int touches = 0;     ///< no layout has fewer touches of this print
  Cause cause = Cause::none;
};

/// What is proved of all prints; no touches and no prints where nothing is.
struct TouchBound {
  int touches = 0;                 ///< no layout has fewer: the sum over the prints
  std::vector<PrintBound> prints;  ///< those with a bound above 0
};

/// The turns that a block may take; by block.
using TurnsOfBlocks = std::vector<std::vector<Turn>>;

/// A lower bound on the touches of every arrangement that leaves the same cells empty and the kept cells as they are.
///
/// For each print the least number of touches of so many blocks on the cells is found by dynamic programming over the
/// frontier of the cells that are decided, each two places costing what the print's blocks touch at least, however
/// turned. Exact for one print of one-patch blocks on straight grids up to kFrontier wide or high; wider tops are cut
/// into strips whose touches across the cuts are not counted, which keeps the bound valid. Blocks are as they are
/// dealt.
TouchBound touch_bound(const Measure& measure, const setting::Arrangement& arrangement, const TurnsOfBlocks& turns);

/// How many undecided neighbours the dynamic programme remembers at most.
inline constexpr int kFrontier = 12;

}  // namespace farflung::score
