// Values only: what a quilter sees who squints, or photocopies.
#pragma once

#include "colour/srgb.hpp"
#include "draw/display.hpp"

namespace farflung::draw {

/// The level of the grey that has the same L*.
std::uint8_t grey_of(colour::Srgb pixel);
/// The grey of the same L*, as clear as it was.
Colour in_grey(const Colour& colour);

/// The same display, every colour the grey of its L*; the swatches have their own in_grey.
Display in_grey(const Display& display);

}  // namespace farflung::draw
