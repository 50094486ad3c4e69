// What is cut for one patch: its finished polygon, the allowance around it, and the shape by which the trade cuts it.
#pragma once

#include <string>

#include "base/plane.hpp"
#include "cloth/ruler.hpp"

namespace farflung::cloth {

/// How a piece is cut: with a ruler alone, or by a template.
enum class Shape {
  square,
  rectangle,
  half_square,     ///< triangle, straight grain on its short sides: squares cut once on the diagonal
  quarter_square,  ///< triangle, straight grain on its long side: squares cut twice
  odd,             ///< anything else: by template
};

/// "square", "strip or rectangle", "half-square triangle", "quarter-square triangle", "template".
const char* name_of(Shape shape);

/// Which way a triangle lies on the cloth: half-square by the corner of its right angle, quarter-square by the side on
/// which its long edge lies; both clockwise from the top left corner, or the top.
///
///   0 |\ ..      half-square, right angle top left: 0, top right: 1, bottom right: 2, bottom left: 3
///     | \        quarter-square, long edge on top: 0, right: 1, bottom: 2, left: 3
using Facing = int;

/// What one patch is cut as.
struct CutShape {
  Shape shape = Shape::odd;
  Length finished_width, finished_height;  ///< rectangles: their sides; triangles: short side, or long side, twice
  Measured width, height;                  ///< of the rectangle that is cut from the cloth
  int per_rectangle = 1;                   ///< patches that one such rectangle gives: 1, 2 or 4
  Facing facing = 0;                       ///< of triangles
  bool own_mirror = true;                  ///< may be cut from folded cloth
  bool askew = false;                      ///< its own sides, not the block's, lie along the grain
  Polygon finished, cut_line;              ///< templates and drawings: the corner of the cut line's box at the origin
  std::string working;  ///< "finished 4 in + s(2 + root 2) = 4 7/8 in (exactly 4.854: 0.021 to trim)"

  bool on_ruler() const { return width.on_ruler() && height.on_ruler(); }
};

/// The polygon grown by the allowance on every side. Points that would reach farther than three allowances are blunted,
/// as a template's are. Corners clockwise or not; the result runs as the polygon does.
Polygon with_allowance(const Polygon& polygon, Length seam);

/// Recognises what to cut. The polygon's axes are those of the block, so that straight grain lies along the block's
/// outer edges. A rectangle that lies askew is cut along its own sides unless `upright`: then the print must stand as
/// drawn, and it becomes a template.
CutShape cut_shape(const Polygon& finished, Length seam, Ruler ruler, bool upright = false);

/// "finished 9 x 4 in + 2 x 1/4 in = 9 1/2 in x 4 1/2 in", as the shape now lies.
std::string rectangle_working(const CutShape& cut, Length seam);

/// A setting triangle: the smallest right-angled triangle with its straight grain along the axes that holds the
/// polygon. Between sashes it is cut whole and trimmed. `extra` is what it is cut larger by, to be trimmed away.
CutShape setting_triangle(const Polygon& finished, Length seam, Ruler ruler, Length extra = {});

}  // namespace farflung::cloth
