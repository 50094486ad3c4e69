// Cloth seen at a slant, laid flat.
#pragma once

#include "photo/picture.hpp"

namespace farflung::photo {

/// Width over height of a rectangle whose corners are seen at `corners` in a photograph of that size, for a lens as
/// telephones have (focal length 0.62 of the picture's diagonal, 27 mm on the old film) that looks through the
/// picture's middle; from the two columns of the homography (Zhang 2000, doi:10.1109/34.888718). Off by a few per cent
/// where the lens is another and the slant is strong.
double aspect(const Corners& corners, double columns, double rows);

/// How large the flat picture is and how much of the rim it leaves out.
struct RectifyOptions {
  int longest = 900;   ///< pixels of the swatch's longer side, at most
  double depth = 0;    ///< pixels of `picture`: how far inward the cut edge wanders
  double trim = 0.02;  ///< of the shorter side, cut off all round beside that
  double aspect = 0;   ///< width over height of the cloth where it is known, else 0: judged by the lens
};

/// The flat picture; the cloth's width times kept_across is what it spans.
struct Rectified {
  Picture picture;
  double kept_across = 1;  ///< of the cloth's width, what the picture spans after trimming
};

/// As below, and how much was trimmed.
Rectified rectified_whole(const Picture& picture, const Corners& corners, const RectifyOptions& options);

/// The cloth within `corners` of `picture` as a flat rectangle, edges and pinking trimmed off.
Picture rectified(const Picture& picture, const Corners& corners, const RectifyOptions& options);

}  // namespace farflung::photo
