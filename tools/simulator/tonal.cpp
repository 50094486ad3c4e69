// Tone on tone: prints that read as a solid from across the room and repay a closer look.
#include <cmath>

#include "simulator/design.hpp"
#include "simulator/field.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

// Curls that fill the cloth. inks: ground, curl
cv::Mat scrolls(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.56 * m, brush.rng, 60);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    const double angle = brush.rng.between(0, kTau), way = brush.rng.below(2) == 0 ? 1 : -1;
    for (int k = 0; k < 3; ++k) {
      const double out = angle + kTau * k / 3;
      canvas.stroke(curl(place, out, 1.35 * m, way * 1.25), 0.035 * m, 0.06 * m, 0.03 * m, brush.ink(1));
      canvas.stroke(curl(place + toward(out) * (0.16 * m), out - way * 0.9, 0.5 * m, -way * 0.9), 0.02 * m, 0.035 * m,
                    0.02 * m, brush.ink(1));
    }
  }
  return canvas.linear();
}

// Leaves shoulder to shoulder. inks: ground, leaf, [second leaf]
cv::Mat foliage(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.40 * m, brush.rng, 60);
  brush.holds(places.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double angle = brush.rng.between(0, kTau), bend = brush.rng.between(-0.3, 0.3);
    const cv::Point2d base = places[i] - toward(angle) * (0.3 * m);
    const Ink body = brush.ink(1 + i % 2);
    canvas.fill(leaf(base, angle, 0.70 * m, 0.30 * m, bend), brush.ink(0));
    canvas.fill(leaf(base + toward(angle) * (0.02 * m), angle, 0.65 * m, 0.25 * m, bend), body);
    canvas.stroke(rib(base, angle, 0.6 * m, bend), 0.03 * m, 0.02 * m, 0, brush.ink(0));
  }
  return canvas.linear();
}

// A dry brush drawn both ways over the cloth. inks: ground, brush
cv::Mat sailcloth(Brush& brush) {
  const cv::Size size = brush.tile.pixels();
  const auto strokes = [&](bool across) {
    const double fine = 0.022 * brush.motif, run = 0.9 * brush.motif;
    cv::Size coarse(std::max(4, cvRound(brush.tile.width / (across ? run : fine))),
                    std::max(4, cvRound(brush.tile.height / (across ? fine : run))));
    coarse = {std::min(coarse.width, size.width), std::min(coarse.height, size.height)};
    return drawn_out(deviates(coarse, brush.rng), size);
  };
  cv::Mat field = 0.5 + 0.17 * strokes(true) + 0.17 * strokes(false);
  field += 0.5 * (clouds(brush.tile, 1.5 * brush.motif, 3, 0.5, brush.rng) - 0.5);
  return dyed(field, {brush.ink(0), brush.ink(1)});
}

// Small stars and specks. inks: ground, speck
cv::Mat spray(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.34 * m, brush.rng, 40);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    if (brush.rng.below(4) == 0) {
      canvas.fill(star(place, 0.13 * m, 0.045 * m, 4, brush.rng.between(0, kTau)), brush.ink(1));
    } else {
      canvas.dot(place, m * brush.rng.between(0.018, 0.055), brush.ink(1));
    }
  }
  return canvas.linear();
}

}  // namespace

std::vector<Design> tonal_designs() {
  return {{"scrolls", 6, 6, {}, scrolls},
          {"foliage", 7, 7, {}, foliage},
          {"sailcloth", 5, 5, {}, sailcloth},
          {"spray", 6, 6, {}, spray}};
}

}  // namespace farflung::simulator
