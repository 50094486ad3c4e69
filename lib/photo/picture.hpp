// A picture in memory, free of any library's types.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "colour/srgb.hpp"

namespace farflung::photo {

/// sRGB pixels, row by row from the top left, three bytes each.
struct Picture {
  int columns = 0, rows = 0;
  std::vector<std::uint8_t> rgb;

  Picture() = default;
  Picture(int columns_of, int rows_of, colour::Srgb fill = {});

  bool empty() const { return rgb.empty(); }
  colour::Srgb at(int column, int row) const {
    const std::uint8_t* p = &rgb[3 * (static_cast<std::size_t>(row) * columns + column)];
    return {p[0], p[1], p[2]};
  }
  void set(int column, int row, colour::Srgb pixel) {
    std::uint8_t* p = &rgb[3 * (static_cast<std::size_t>(row) * columns + column)];
    p[0] = pixel.r, p[1] = pixel.g, p[2] = pixel.b;
  }

  friend bool operator==(const Picture&, const Picture&) = default;
};

/// A piece of cloth's four corners, clockwise from its top left: x, y in pixels, (0, 0) the outer corner of the first
/// pixel, so that a picture's own corners are (0, 0), (columns, 0), (columns, rows), (0, rows).
using Corners = std::array<std::array<double, 2>, 4>;

/// The corners of the whole of a columns x rows picture.
Corners whole(double columns, double rows);

/// `corners` as seen in a picture `factor` times as large.
Corners scaled(const Corners& corners, double factor);

}  // namespace farflung::photo
