// How many blocks make a quilt of a wanted size, and what that takes.
#pragma once

#include <string>
#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::choice {

using block::kNone;

/// A size that quilts are made in: "lap", 52 x 68 in.
struct WantedSize {
  std::string name;  ///< may be empty
  Length width, height;
};

/// The pieces that one slot of a pattern asks for in all blocks together.
struct SlotPieces {
  int pattern = 0, slot = 0;
  /// Patches of the slot in one block.
  int per_block = 0;
  int blocks = 0;
  int pieces = 0;       ///< per_block x blocks
  double cut_area = 0;  ///< square inches of all of them, each as the box round it with its seam allowance
};

/// The quilt of this pattern and setting that comes nearest to a wanted size, and what it takes.
struct SizeReport {
  WantedSize wanted;
  int rows = 0, columns = 0;
  Length width, height;  ///< finished, borders included
  Length wider, taller;  ///< than wanted; below zero: narrower, shorter
  int blocks = 0;        ///< as many as cells
  std::vector<SlotPieces> pieces;
  int dealt_slots = 0;        ///< slots of all blocks together that any print may fill
  double uses_per_print = 0;  ///< dealt_slots over the prints in hand that are neither frame nor background
  std::string says;
};

/// The rows and columns with this quilt's pattern, setting, sashing and borders that come nearest, each way for itself;
/// of two as near the larger. At least one row and column (a brick's two), at most 200. A quilt without a pattern, or
/// a size that is not above 0, is a problem.
Result<SizeReport> nearest_size(const quilt::Quilt& quilt, const WantedSize& wanted);

/// nearest_size of each, in order.
Result<std::vector<SizeReport>> size_table(const quilt::Quilt& quilt, const std::vector<WantedSize>& wanted);

/// The quilt with so many rows and columns, for reckoning and drawing: its blocks in their order, cut off or begun
/// again from the first (of each pattern) until every cell is filled; turns 0, nothing kept, no spares. A quilt that
/// has no blocks of a pattern yet gets some, its prints dealt to their slots in turn.
quilt::Quilt resized(const quilt::Quilt& quilt, int rows, int columns);

}  // namespace farflung::choice
