// The trade's formulas, exact: what is cut for a finished size, before a ruler comes to it.
#pragma once

#include <cmath>
#include <numbers>

#include "base/length.hpp"

namespace farflung::cloth {

/// A multiple of a length that need not be whole; rounded to the nanometre.
inline Length times(double factor, Length length) { return Length::millimetres(factor * length.millimetres()); }

/// A square's diagonal over its side.
inline const double kRootTwo = std::numbers::sqrt2;

/// A side of a square, rectangle or strip: finished + 2s.
inline Length straight_cut(Length finished, Length seam) { return finished + 2 * seam; }

/// The square that is cut once on the diagonal for two triangles of this finished short side: finished + s(2 + root 2).
/// The seam allowance adds s at the leg and s(1 + root 2) at the sharp corner. 7/8 in at s = 1/4 in.
inline Length half_square_cut(Length leg, Length seam) { return leg + times(2 + kRootTwo, seam); }

/// The square that is cut twice on the diagonal for four triangles of this finished long side: finished + s(2 + 2 root
/// 2). 1 1/4 in at s = 1/4 in.
inline Length quarter_square_cut(Length long_side, Length seam) { return long_side + times(2 + 2 * kRootTwo, seam); }

/// The diagonal of a square, and the side of a square of this diagonal.
inline Length diagonal_of(Length side) { return times(kRootTwo, side); }
inline Length side_of(Length diagonal) { return times(1 / kRootTwo, diagonal); }

/// On point: the squares for side triangles (cut twice) and corner triangles (cut once) around blocks of this finished
/// side. A sash between the blocks is added to the side: it spreads the blocks, and the triangles with them.
inline Length setting_side_cut(Length block, Length sash, Length seam) {
  return quarter_square_cut(diagonal_of(block + sash), seam);
}
inline Length setting_corner_cut(Length block, Length sash, Length seam) {
  return half_square_cut(times(0.5, diagonal_of(block + sash)), seam);
}

}  // namespace farflung::cloth
