// Colours as people say them.
#pragma once

#include <string>

#include "colour/lab.hpp"

namespace farflung::colour {

/// One plain English word, or two: "white", "black", "grey", "cream", "red", "pink", "orange", "brown", "yellow",
/// "green", "teal", "blue", "purple", with "light" or "dark" before it where it is clearly so. By lightness, chroma and
/// hue angle in CIELAB (D65).
std::string words(Lab lab);

}  // namespace farflung::colour
