// Displays as pictures: PNG for looking at, SVG for enlarging.
#pragma once

#include <string>

#include "base/result.hpp"
#include "draw/display.hpp"
#include "draw/picture.hpp"

namespace farflung::render {

/// The bytes of a PNG `width` pixels wide, on white; its height follows the display's proportions. Refused beyond
/// limits::kDrawnPixels.
/// The same display, swatches and width give the same bytes.
Result<std::string> png(const draw::Display& display, const draw::Swatches& swatches, int width);

/// The same as decoded pixels.
Result<draw::Picture> pixels(const draw::Display& display, const draw::Swatches& swatches, int width);

/// The bytes of an SVG `width` CSS pixels wide, swatches carried within for printing at twice that. Words become
/// outlines, so that it looks the same where the fonts are not installed.
Result<std::string> svg(const draw::Display& display, const draw::Swatches& swatches, int width);

}  // namespace farflung::render
