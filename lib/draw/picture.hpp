// Decoded swatches as the drawing modules take them: plain pixels, no library's type.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

namespace farflung::draw {

/// sRGB, 8 bits, three bytes a pixel, row by row without padding.
struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;

  bool empty() const { return width <= 0 || height <= 0; }
  const std::uint8_t* at(int x, int y) const { return &rgb[3 * (static_cast<std::size_t>(y) * width + x)]; }
  std::uint8_t* at(int x, int y) { return &rgb[3 * (static_cast<std::size_t>(y) * width + x)]; }

  friend bool operator==(const Picture&, const Picture&) = default;
};

/// All black.
Picture blank(int width, int height);

/// One for each print of the quilt, in order; empty pictures where a print has no swatch.
using Swatches = std::vector<Picture>;

/// The same picture `width` pixels wide, averaged in light so that its mean colour stays (never enlarged: a picture
/// narrower than `width` is given back as it is).
Picture reduced(const Picture& picture, int width);

/// The same cloth as a tile that repeats without a visible join: it is lapped over its own far edge, by a
/// tenth to a quarter of its side, and cut where the two agree best (the minimum error boundary of Efros and Freeman
/// 2001, doi:10.1145/383259.383296). Scale and way up stay; it comes out smaller by the lap.
Picture repeating(const Picture& picture);

/// Values only: every pixel the grey of its own L*.
Picture in_grey(const Picture& picture);
Swatches in_grey(const Swatches& swatches);

}  // namespace farflung::draw
