// Units of a block as they are sewn: what is joined to what, and which way its seam is pressed.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// What a patch is marked with that is too small for its slot's name: a name of two letters at most as it is; "BG", as
/// the trade has it, for the background; of several words their heads, "L1" for "light 1"; else as many of the first
/// letters, two at least, as no other slot's name begins with: "Ce" for "centre".
std::string slot_code(const block::Pattern& pattern, int slot);

/// One step, by its index: its parts drawn a little apart, hatched by slot, slots named or marked by their codes, an
/// arrow across each seam the way it is pressed (both ways: open; a ring: spun). In points, within width x height.
draw::Display unit_drawing(const block::Pattern& pattern, const cloth::Piecing& piecing, int index, double width,
                           double height);

/// The whole block with all its seams and how they are pressed, as its steps say or all the other way.
draw::Display pressing_drawing(const block::Pattern& pattern, const cloth::Piecing& piecing, bool other, double side);

}  // namespace farflung::sheet
