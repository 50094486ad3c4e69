// Cloth dyed by hand, and wax-resist batik: the wax keeps the motif light and cracks in fine veins.
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/design.hpp"
#include "simulator/field.hpp"
#include "simulator/light.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

// inks: from the least to the most dye
cv::Mat hand_dyed(Brush& brush) {
  cv::Mat field = clouds(brush.tile, 1.4 * brush.motif, 6, 0.56, brush.rng);
  field = stirred(field, brush.tile, 2 * brush.motif, 0.55 * brush.motif, brush.rng);
  // Where the wet cloth was scrunched the dye stops at a soft line.
  const cv::Mat folds = clouds(brush.tile, 0.9 * brush.motif, 4, 0.5, brush.rng);
  cv::Mat lines = cv::abs(folds - 0.5);
  lines = 1 - stepped(lines, 0.0, 0.06);
  return dyed(field * 0.94 + 0.03 + 0.09 * lines, brush.inks);
}

// Lines where a field crosses its middle, as wide as its slope lets them be.
cv::Mat veins(const Tile& tile, double grain, double width, Rng& rng) {
  cv::Mat field = clouds(tile, grain, 4, 0.62, rng);
  cv::Mat lines = cv::abs(field - 0.5);
  return 1 - stepped(lines, 0.2 * width, width);
}

// `draw` paints the wax white on black. inks: dark dye ..., the last one the cloth under the wax
cv::Mat batik(Brush& brush, void (*draw)(Canvas&, Brush&)) {
  std::vector<Ink> dyes(brush.inks.begin(), brush.inks.end() - 1);
  if (dyes.size() == 1) dyes.push_back(mixed(dyes[0], brush.inks.back(), 0.3));
  const Ink cloth = brush.inks.back();
  cv::Mat field = clouds(brush.tile, 1.8 * brush.motif, 5, 0.5, brush.rng);
  const cv::Mat ground = dyed(stirred(field, brush.tile, 2 * brush.motif, 0.5 * brush.motif, brush.rng), dyes);
  cv::Mat tint = clouds(brush.tile, 1.1 * brush.motif, 4, 0.5, brush.rng);
  const cv::Mat light = dyed(tint, {mixed(cloth, dyes.front(), 0.26), cloth, mixed(cloth, dyes.back(), 0.16)});

  Canvas canvas(brush.tile, 0x000000);
  draw(canvas, brush);
  cv::Mat wax = mask_of(canvas);
  // The wax's rim is ragged, and thinner wax lets some dye through.
  wax = stirred(wax, brush.tile, 0.10 * brush.motif, 0.014 * brush.motif, brush.rng);
  cv::GaussianBlur(wax, wax, {}, 0.012 * brush.motif * brush.tile.pixels_per_inch);
  const cv::Mat crackle = veins(brush.tile, 0.32 * brush.motif, 0.05, brush.rng);
  wax = wax.mul(1 - 0.5 * crackle) * 0.95;
  return blended(ground, light, wax);
}

void wax_ferns(Canvas& canvas, Brush& brush) {
  const double m = brush.motif;
  const Ink white = 0xffffff;
  const Shape places = scattered(brush.tile, 0.80 * m, brush.rng, 60);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    const double angle = brush.rng.between(0, kTau), bend = brush.rng.between(-0.3, 0.3);
    const Shape stem = rib(place - toward(angle) * (0.45 * m), angle, 0.9 * m, bend);
    canvas.stroke(stem, 0.03 * m, 0.025 * m, 0.01 * m, white);
    for (std::size_t i = 2; i + 1 < stem.size(); ++i) {
      const double t = static_cast<double>(i) / 16, reach = m * 0.30 * std::sin(CV_PI * (0.12 + 0.86 * t));
      const double heading = std::atan2(stem[i + 1].y - stem[i].y, stem[i + 1].x - stem[i].x);
      for (int side = -1; side <= 1; side += 2) {
        canvas.fill(leaf(stem[i], heading + side * 0.95, reach, 0.30 * reach + 0.01 * m, -0.25 * side), white);
      }
    }
  }
}

void wax_rings(Canvas& canvas, Brush& brush) {
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.92 * m, brush.rng, 60);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    const double angle = brush.rng.between(0, kTau);
    canvas.dot(place, 0.07 * m, 0xffffff);
    for (int k = 0; k < 8; ++k) canvas.dot(place + toward(angle + kTau * k / 8) * (0.17 * m), 0.035 * m, 0xffffff);
    canvas.ring(place, 0.28 * m, 0.045 * m, 0xffffff);
    for (int k = 0; k < 14; ++k) {
      canvas.fill(petal(place + toward(angle + kTau * k / 14) * (0.32 * m), angle + kTau * k / 14, 0.13 * m, 0.06 * m),
                  0xffffff);
    }
  }
}

void wax_leaves(Canvas& canvas, Brush& brush) {
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.50 * m, brush.rng, 60);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    const double angle = brush.rng.between(0, kTau), bend = brush.rng.between(-0.3, 0.3);
    const cv::Point2d base = place - toward(angle) * (0.3 * m);
    canvas.fill(leaf(base, angle, 0.62 * m, 0.27 * m, bend), 0xffffff);
    canvas.stroke(rib(base, angle, 0.6 * m, bend), 0.03 * m, 0.025 * m, 0.01 * m, 0x000000);
    for (int k = 1; k < 5; ++k) {
      const cv::Point2d on = rib(base, angle, 0.62 * m, bend)[static_cast<std::size_t>(3 * k)];
      for (int side = -1; side <= 1; side += 2)
        canvas.stroke(rib(on, angle + 0.8 * side, 0.13 * m, 0), 0.018 * m, 0.014 * m, 0, 0x000000);
    }
  }
}

cv::Mat batik_ferns(Brush& brush) { return batik(brush, wax_ferns); }
cv::Mat batik_rings(Brush& brush) { return batik(brush, wax_rings); }
cv::Mat batik_leaves(Brush& brush) { return batik(brush, wax_leaves); }

}  // namespace

std::vector<Design> dyed_designs() {
  return {{"hand dyed", 5, 5, {}, hand_dyed},
          {"batik ferns", 5, 5, {}, batik_ferns},
          {"batik rings", 5, 5, {}, batik_rings},
          {"batik leaves", 6, 6, {}, batik_leaves}};
}

}  // namespace farflung::simulator
