// Where the seams of a block end at its edges, and which of them meet across a join.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::score {

/// Where one seam of a block ends at the block's edge.
struct SeamEnd {
  /// Which way the allowance lies, as seen by someone outside the edge who faces the block.
  enum class Way { left, right, open };

  Point at;      ///< in the block, unturned
  int edge = 0;  ///< 0 top, 1 right, 2 bottom, 3 left, unturned; an end in a corner is listed for both edges
  Way way = Way::open;
};

/// The ends of a pattern's seams, pressed as its steps say. A pattern without piecing has none to tell: empty.
std::vector<SeamEnd> seam_ends(const block::Pattern& pattern);

/// A pattern's ends, and where they lie on the top.
struct LaidPattern {
  const block::Pattern& pattern;
  const std::vector<SeamEnd>& ends;
  int cell = 0;
  Turn turn;
};

/// Two seam ends at one place on the join of two blocks, each pressed as drawn.
struct MetEnds {
  Point at;  ///< on the top
  SeamEnd::Way way_a = SeamEnd::Way::open, way_b = SeamEnd::Way::open;
};

/// The ends that meet at the same place, within kSnap, on the edge that two blocks share; none where they share none.
std::vector<MetEnds> met_ends(const setting::Plan& plan, const LaidPattern& a, const LaidPattern& b);

}  // namespace farflung::score
