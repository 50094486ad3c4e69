#include "photo/lamp.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/core.hpp>

#include "colour/srgb.hpp"

namespace farflung::photo {
namespace {

const cv::Matx33d& cones_from_light() {
  static const cv::Matx33d matrix = [] {
    const cv::Matx33d cones_from_xyz(0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296);
    cv::Matx33d xyz_from_light;
    for (int c = 0; c < 3; ++c) {
      const colour::Xyz xyz = colour::xyz_from_light({c == 0 ? 1.0 : 0.0, c == 1 ? 1.0 : 0.0, c == 2 ? 1.0 : 0.0});
      xyz_from_light(0, c) = xyz.X, xyz_from_light(1, c) = xyz.Y, xyz_from_light(2, c) = xyz.Z;
    }
    return cones_from_xyz * xyz_from_light;
  }();
  return matrix;
}

/// Linear sRGB of a black body (below 4,000 K; Kim et al. 2002, US 7024034) or of daylight (CIE 15:2004), Y = 1.
cv::Vec3d light_of(double mired) {
  const double t = mired / 1000;
  double x = 0, y = 0;
  if (mired > 250) {
    x = ((-0.2661239 * t - 0.2343589) * t + 0.8776956) * t + 0.179910;
    y = ((-0.9549476 * x - 1.37418593) * x + 2.09137015) * x - 0.16748867;
  } else {
    x = mired >= 1000.0 / 7 ? ((-4.6070 * t + 2.9678) * t + 0.09911) * t + 0.244063
                            : ((-2.0064 * t + 1.9018) * t + 0.24748) * t + 0.237040;
    y = (-3 * x + 2.870) * x - 0.275;
  }
  const colour::Light light = colour::light_from_xyz({x / y, 1, (1 - x - y) / y});
  return {light.r, light.g, light.b};
}

}  // namespace

std::array<double, 9> upright_hues(double mired) {
  const cv::Vec3d light = light_of(mired), cones = cones_from_light() * light,
                  white = cones_from_light() * cv::Vec3d(1, 1, 1);
  const cv::Matx33d to_daylight = cones_from_light().inv() *
                                  cv::Matx33d::diag({white[0] / cones[0], white[1] / cones[1], white[2] / cones[2]}) *
                                  cones_from_light();
  const cv::Matx33d from_neutral = to_daylight * cv::Matx33d::diag(light);
  std::array<double, 9> rows{};
  std::copy(std::begin(from_neutral.val), std::end(from_neutral.val), rows.begin());
  return rows;
}

double likely_light(double log_red_over_blue) {
  // Every light and every camera tried, each as likely as the other before the white is seen.
  constexpr int kLights = 48, kShares = 20;
  constexpr double kLeastTaken = 0.6, kMostTaken = 0.97, kUnsure = 0.04;  // papers are bluer and yellower
  double sum = 0, weights = 0;
  for (int i = 0; i < kLights; ++i) {
    const double mired = kCoolest + (kWarmest - kCoolest) * (i + 0.5) / kLights;
    const cv::Vec3d light = light_of(mired);
    const double colour = std::log(light[0] / light[2]);
    for (int k = 0; k < kShares; ++k) {
      const double left = 1 - kLeastTaken - (kMostTaken - kLeastTaken) * (k + 0.5) / kShares;
      const double off = (log_red_over_blue - left * colour) / kUnsure, weight = std::exp(-off * off / 2);
      sum += weight * mired, weights += weight;
    }
  }
  if (weights < 1e-9) return log_red_over_blue > 0 ? kWarmest : kCoolest;
  return sum / weights;
}

}  // namespace farflung::photo
