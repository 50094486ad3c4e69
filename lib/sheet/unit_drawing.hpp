// Units of a block as they are sewn: what is joined to what, and which way its seam is pressed.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// One step, by its index: its parts drawn a little apart, hatched by slot, slots named, an arrow across each seam the
/// way it is pressed (both ways: open; a ring: spun). In points, within width x height.
draw::Display unit_drawing(const block::Pattern& pattern, const cloth::Piecing& piecing, int index, double width,
                           double height);

/// The whole block with all its seams and how they are pressed, as its steps say or all the other way.
draw::Display pressing_drawing(const block::Pattern& pattern, const cloth::Piecing& piecing, bool other, double side);

}  // namespace farflung::sheet
