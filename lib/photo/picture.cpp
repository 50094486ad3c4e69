#include "photo/picture.hpp"

namespace farflung::photo {

Picture::Picture(int columns_of, int rows_of, colour::Srgb fill)
    : columns(columns_of), rows(rows_of), rgb(3 * static_cast<std::size_t>(columns_of) * rows_of) {
  if (fill == colour::Srgb{}) return;
  for (std::size_t i = 0; i < rgb.size(); i += 3) rgb[i] = fill.r, rgb[i + 1] = fill.g, rgb[i + 2] = fill.b;
}

Corners whole(double columns, double rows) { return {{{0, 0}, {columns, 0}, {columns, rows}, {0, rows}}}; }

Corners scaled(const Corners& corners, double factor) {
  Corners result = corners;
  for (auto& corner : result) {
    for (double& coordinate : corner) coordinate *= factor;
  }
  return result;
}

}  // namespace farflung::photo
