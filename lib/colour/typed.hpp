// Colours as people type them.
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "colour/lab.hpp"
#include "colour/srgb.hpp"

namespace farflung::colour {

/// Reads "#3a6ea5", "3a6ea5", "#36a" (sRGB) or "52.1, -14, 8.2" (L*, a*, b*: by commas, spaces, or both; "lab(...)"
/// round it is allowed). L outside 0..100, or a, b outside -160..160, is a problem; so is anything else.
Result<Lab> colour_from_typed(std::string_view text);

/// "#3a6ea5", the nearest colour of the screen.
std::string hex(Lab lab);
std::string hex(Srgb pixel);

}  // namespace farflung::colour
