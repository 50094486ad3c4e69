#include <algorithm>
#include <cmath>

#include "simulator/design.hpp"
#include "simulator/fabric.hpp"
#include "simulator/light.hpp"

namespace farflung::simulator {
namespace {

// An ink of this lightness (L*), of a hue in radians about the sRGB circle, `chroma` 0 grey .. 1 full.
Ink ink_of(double lightness, double chroma, double hue) {
  const auto wave = [&](double shift) { return 0.5 + 0.5 * std::cos(hue + shift); };
  const cv::Vec3d hued(wave(0), wave(-2 * CV_PI / 3), wave(2 * CV_PI / 3));
  const cv::Vec3d colour = cv::Vec3d(1, 1, 1) * (1 - chroma) + hued * chroma;
  double low = 0, high = 4;
  for (int i = 0; i < 30; ++i) {
    const double scale = (low + high) / 2;
    cv::Vec3d light = colour * scale;
    for (int k = 0; k < 3; ++k) light[k] = std::min(1.0, light[k]);
    (lab_of(light).L < lightness ? low : high) = scale;
  }
  const auto part = [&](double value) {
    return static_cast<std::uint8_t>(std::clamp(srgb_from_linear(std::min(1.0, value * low)), 0.0, 1.0) * 255 + 0.5);
  };
  Ink ink;
  ink.red = part(colour[0]);
  ink.green = part(colour[1]);
  ink.blue = part(colour[2]);
  return ink;
}

}  // namespace

std::vector<Fabric> bundle(int count, Seed seed) {
  std::vector<std::size_t> order(designs().size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  Rng rng(seed);
  rng.shuffle(std::span(order));
  std::vector<Fabric> fabrics;
  for (int i = 0; i < count; ++i) {
    const Design& design = designs()[order[static_cast<std::size_t>(i) % order.size()]];
    Fabric fabric;
    fabric.name = (i < 9 ? "F0" : "F") + std::to_string(i + 1);
    fabric.design = design.name;
    fabric.seed = derived(seed, static_cast<std::uint64_t>(i) + 1);
    const double repeat = std::max(design.across, design.down);
    fabric.motif = std::clamp(rng.between(0.3, 1.6), 2.2 / repeat, 9.0 / repeat);
    const double ground = count > 1 ? 18 + 76.0 * i / (count - 1) : 55;
    const double hue = rng.between(0, 2 * CV_PI), other = hue + rng.between(0.4, 2.6) * (rng.below(2) == 0 ? 1 : -1);
    const bool tonal = rng.below(4) == 0;
    fabric.inks.push_back(ink_of(ground, rng.between(0.1, 0.75), hue));
    for (int k = 0; k < 4; ++k) {
      const double away = (tonal ? rng.between(6, 16) : rng.between(18, 55)) * (ground > 55 ? -1 : 1);
      const double shade = tonal ? hue + rng.between(-0.2, 0.2) : (k % 2 == 0 ? other : hue);
      fabric.inks.push_back(ink_of(std::clamp(ground + away, 12.0, 96.0), rng.between(0.1, 0.8), shade));
    }
    fabrics.push_back(fabric);
  }
  return fabrics;
}

}  // namespace farflung::simulator
