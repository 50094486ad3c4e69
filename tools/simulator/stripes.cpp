// Stripes, along the selvage as cloth is sold: awnings, deck chairs, ticking, ropes.
#include <cmath>

#include "simulator/design.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

struct Stripe {
  double width;  ///< in motifs
  std::size_t ink;
};

// `run` repeated over the tile; its widths should sum to a whole part of it.
void stripes(Canvas& canvas, Brush& brush, const std::vector<Stripe>& run) {
  double total = 0;
  for (const Stripe& stripe : run) total += stripe.width;
  const int times = static_cast<int>(std::round(brush.tile.width / (total * brush.motif)));
  brush.scale = brush.tile.width / times;
  double left = 0;
  for (int k = 0; k < times; ++k) {
    for (const Stripe& stripe : run) {
      const double width = stripe.width / total * brush.tile.width / times;
      if (stripe.ink != 0) canvas.fill(box(left, 0, width, brush.tile.height), brush.ink(stripe.ink));
      left += width;
    }
  }
}

// inks: ground, wide stripe, thin line
cv::Mat awning(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  stripes(canvas, brush, {{0.06, 0}, {0.04, 2}, {0.06, 0}, {0.42, 1}, {0.06, 0}, {0.04, 2}, {0.32, 0}});
  return canvas.linear();
}

// inks: ground and four or so more
cv::Mat deck_chair(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  stripes(canvas, brush,
          {{0.18, 0},
           {0.30, 1},
           {0.05, 0},
           {0.05, 3},
           {0.05, 0},
           {0.16, 2},
           {0.03, 4},
           {0.16, 2},
           {0.05, 0},
           {0.05, 3},
           {0.05, 0},
           {0.30, 1},
           {0.18, 0},
           {0.10, 4},
           {0.06, 0},
           {0.10, 4}});
  return canvas.linear();
}

// inks: ground, line
cv::Mat ticking(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  stripes(canvas, brush, {{0.30, 0}, {0.05, 1}, {0.05, 0}, {0.20, 1}, {0.05, 0}, {0.05, 1}, {0.30, 0}});
  return canvas.linear();
}

// Laid ropes side by side, their strands all leaning one way. inks: ground, strand, shade
cv::Mat ropes(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif, lay = 0.30 * m;
  const int count = static_cast<int>(std::round(brush.tile.width / m));
  brush.scale = brush.tile.width / count;
  const int strands = static_cast<int>(std::round(brush.tile.height / lay));
  for (int c = 0; c < count; ++c) {
    const double x = (c + 0.5) * m;
    for (int k = 0; k < strands; ++k) {
      const double y = (k + 0.5) * brush.tile.height / strands;
      const Shape strand = bezier({x - 0.21 * m, y + 0.19 * m}, {x - 0.12 * m, y - 0.05 * m},
                                  {x + 0.12 * m, y + 0.05 * m}, {x + 0.21 * m, y - 0.19 * m});
      canvas.stroke(strand, 0.10 * m, 0.30 * m, 0.10 * m, brush.ink(2));
      canvas.stroke(strand, 0.06 * m, 0.23 * m, 0.06 * m, brush.ink(1));
      canvas.stroke(strand, 0, 0.04 * m, 0, mixed(brush.ink(1), brush.ink(2), 0.3));
    }
  }
  return canvas.linear();
}

}  // namespace

std::vector<Design> stripe_designs() {
  const print::Direction along{print::Direction::Kind::stripe, 90};
  return {{"awning", 6, 4, along, awning},
          {"deck chair", 3.74, 3, along, deck_chair},
          {"ticking", 8, 6, along, ticking},
          {"ropes", 6, 6, along, ropes}};
}

}  // namespace farflung::simulator
