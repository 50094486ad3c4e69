// Dots: in rows, like pins, spilt, and as rings of bubbles.
#include <cmath>

#include "simulator/design.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

// Half-drop rows; motif is from dot to dot along a row. inks: ground, dot, [every third dot]
cv::Mat rows_of_dots(Brush& brush, double radius) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const int across = static_cast<int>(std::round(brush.tile.width / m));
  const int down = 2 * static_cast<int>(std::round(brush.tile.height / m));
  brush.holds(static_cast<std::size_t>(across * down));
  for (int r = 0; r < down; ++r) {
    for (int c = 0; c < across; ++c) {
      const cv::Point2d place((c + (r % 2 == 0 ? 0.25 : 0.75)) * m, (r + 0.5) * m / 2);
      canvas.dot(place, radius * m, brush.ink(brush.inks.size() > 2 && (c + r) % 3 == 0 ? 2 : 1));
    }
  }
  return canvas.linear();
}

cv::Mat dots(Brush& brush) { return rows_of_dots(brush, 0.21); }
cv::Mat pin_dots(Brush& brush) { return rows_of_dots(brush, 0.13); }

// Dots painted by hand, every one a little different. inks: ground, dots ...
cv::Mat spilt_dots(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.78 * m, brush.rng, 60);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    const Ink ink = brush.ink(1 + brush.rng.below(static_cast<std::uint32_t>(brush.inks.size() - 1)));
    const double radius = m * brush.rng.between(0.17, 0.33);
    canvas.fill(pebble(place, radius, 0.09, brush.rng), ink);
    canvas.fill(pebble(place + toward(4.0) * (radius * 0.22), radius * 0.66, 0.09, brush.rng),
                mixed(ink, brush.ink(0), 0.14));
  }
  return canvas.linear();
}

// inks: ground, ring, light
cv::Mat bubbles(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  for (double size : {1.0, 0.62, 0.36, 0.2}) {
    const Shape places = scattered(brush.tile, size * m, brush.rng, size > 0.5 ? 8 : 3);
    if (size == 1.0) brush.holds(places.size());
    for (const cv::Point2d place : places) {
      const double radius = size * m * brush.rng.between(0.34, 0.46);
      canvas.dot(place, radius, mixed(brush.ink(0), brush.ink(1), 0.25));
      canvas.ring(place, radius, radius * 0.14 + 0.01 * m, brush.ink(1));
      canvas.stroke(rib(place + toward(3.5) * (radius * 0.62), 5.3, radius * 0.55, 0.35), 0, radius * 0.16, 0,
                    brush.ink(2));
    }
  }
  return canvas.linear();
}

}  // namespace

std::vector<Design> dot_designs() {
  return {{"dots", 6, 6, {}, dots},
          {"pin dots", 12, 12, {}, pin_dots},
          {"spilt dots", 7, 7, {}, spilt_dots},
          {"bubbles", 5, 5, {}, bubbles}};
}

}  // namespace farflung::simulator
