// The finished quilt as a display, in inches: what the preview, the cover and the placement map all show.
#pragma once

#include "draw/display.hpp"
#include "quilt/quilt.hpp"

namespace farflung::draw {

/// How the top is shown; what is shown of cloth is always true to scale.
struct TopLook {
  bool binding = true;   ///< where the quilt has one: the edge that shows on the front
  bool relief = true;    ///< seams as soft shadows
  double wall = 0;       ///< inches of bare wall around it, on which the quilt throws a shadow
  bool caption = false;  ///< title and finished size on the wall, below; needs wall
};

/// A look for a picture to pin up: some wall around, and the title below.
TopLook pinned_up(const setting::Plan& plan);

/// The top as a display whose unit is the inch.
struct Top {
  Display display;
  Vec corner;  ///< where the top's own corner (0, 0), inside the binding, lies on the display
};

/// The whole quilt, turned and cut as the file says. Empty cells are hatched.
Top top_of(const quilt::Quilt& quilt, const setting::Plan& plan, const TopLook& look = {});

/// The cell's block by itself (on point as it lies on the wall), its box's corner at the origin, in inches.
Display cell_of(const quilt::Quilt& quilt, const setting::Plan& plan, int cell);

/// The inches of binding that show on the front: a quarter of the folded strip.
double binding_shown(const quilt::Quilt& quilt);

/// "60 1/2 × 75 in", "154 × 191 cm": of the top; the edge of the binding comes on top of it.
std::string finished_size(const quilt::Quilt& quilt, const setting::Plan& plan);

/// A length as a quilter reads it, to the nearest 1/8 in, 0.1 cm or 1 mm.
std::string spoken(Length length, quilt::Units units);

/// An empty place: quiet hatching and a broken outline; `unit` is the length of one inch on the display.
void add_empty(Display& display, const Outline& outline, double unit);

}  // namespace farflung::draw
