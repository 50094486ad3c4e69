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

/// Every light and every camera, each as likely as the other before anything is seen: `take` gets the light's mireds,
/// its linear sRGB, and the power of that colour that the camera leaves.
template <typename Take>
void over_all_cameras(const Take& take) {
  constexpr int kLights = 48, kShares = 20;
  constexpr double kLeastTaken = 0.6, kMostTaken = 0.97;
  for (int i = 0; i < kLights; ++i) {
    const double mired = kCoolest + (kWarmest - kCoolest) * (i + 0.5) / kLights;
    const cv::Vec3d light = light_of(mired);
    for (int k = 0; k < kShares; ++k)
      take(mired, light, 1 - kLeastTaken - (kMostTaken - kLeastTaken) * (k + 0.5) / kShares);
  }
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
  constexpr double kUnsure = 0.04;  // papers are bluer and yellower
  double sum = 0, weights = 0;
  over_all_cameras([&](double mired, const cv::Vec3d& light, double left) {
    const double off = (log_red_over_blue - left * std::log(light[0] / light[2])) / kUnsure;
    const double weight = std::exp(-off * off / 2);
    sum += weight * mired, weights += weight;
  });
  if (weights < 1e-9) return log_red_over_blue > 0 ? kWarmest : kCoolest;
  return sum / weights;
}

std::array<double, 2> LightLeft::off(double log_red_over_green, double log_blue_over_green) const {
  const double red = log_red_over_green - mean[0], blue = log_blue_over_green - mean[1];
  return {whitening[0] * red + whitening[1] * blue, whitening[2] * blue};
}

const LightLeft& light_left() {
  static const LightLeft left = [] {
    constexpr double kTint = 0.03;  // by which cameras err between green and magenta
    cv::Vec2d sum;
    cv::Matx22d squares = cv::Matx22d::zeros();
    double count = 0;
    over_all_cameras([&](double, const cv::Vec3d& light, double share) {
      const cv::Vec2d seen(share * std::log(light[0] / light[1]), share * std::log(light[2] / light[1]));
      sum += seen, squares += seen * seen.t(), count += 1;
    });
    const cv::Vec2d mean = sum * (1 / count);
    const cv::Matx22d tint = cv::Matx22d::all(kTint * kTint) + cv::Matx22d::eye() * 1e-5;
    const cv::Matx22d precision = (squares * (1 / count) - mean * mean.t() + tint).inv();
    const double first = std::sqrt(precision(0, 0)), shared = precision(0, 1) / first;
    return LightLeft{{mean[0], mean[1]}, {first, shared, std::sqrt(precision(1, 1) - shared * shared)}};
  }();
  return left;
}

}  // namespace farflung::photo
