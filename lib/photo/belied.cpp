#include "photo/belied.hpp"

#include <algorithm>
#include <cmath>

namespace farflung::photo {
namespace {

constexpr double kDeepShade = 0.6, kGlare = 1.08;  ///< of the surface's light, in the deepest shade and the brightest
constexpr double kGrain = 0.08;                    ///< of its light, by which the surface may differ from itself
constexpr double kDark = 1e-5;                     ///< squared light, of what a camera adds in the dark
constexpr int kAlong = 40;                         ///< places along a side

bool is_surface(const cv::Vec3d& light, const cv::Vec3d& bare) {
  const double bright = bare.dot(bare);
  const double shade = std::clamp(light.dot(bare) / std::max(1e-9, bright), kDeepShade, kGlare);
  const cv::Vec3d off = light - shade * bare;
  return off.dot(off) < kGrain * kGrain * bright + kDark;
}

}  // namespace

double belied(const Quad& supposed, const Quad& found, int side, const Lit& lit) {
  const Side from = side_of(found, side);
  const auto out = [&](cv::Point2d corner) { return (corner - from.from).dot(from.outward); };
  const double width = (out(supposed[side]) + out(supposed[(side + 1) % 4])) / 2;
  const int deep = std::max(1, static_cast<int>(std::abs(width)));
  int against = 0;
  for (int i = 0; i < kAlong; ++i) {
    for (int k = 0; k < deep; ++k) {
      const cv::Point2d place = from.place(0.05 + 0.9 * (i + 0.5) / kAlong, width * (k + 0.5) / deep);
      against += is_surface(light_at(lit, place), bare_at(lit, place)) == (width > 0);
    }
  }
  return std::abs(width) * against / (kAlong * deep);
}

}  // namespace farflung::photo
