#include "simulator/light.hpp"

#include <algorithm>
#include <cmath>

namespace farflung::simulator {
namespace {

// IEC 61966-2-1, D65 white.
const cv::Matx33d kXyzFromRgb(0.4124564, 0.3575761, 0.1804375,  //
                              0.2126729, 0.7151522, 0.0721750,  //
                              0.0193339, 0.1191920, 0.9503041);
const cv::Matx33d kBradford(0.8951, 0.2664, -0.1614,  //
                            -0.7502, 1.7135, 0.0367,  //
                            0.0389, -0.0685, 1.0296);

double cube_root_part(double t) {
  constexpr double kEdge = 6.0 / 29.0;
  return t > kEdge * kEdge * kEdge ? std::cbrt(t) : t / (3 * kEdge * kEdge) + 4.0 / 29.0;
}

cv::Vec3d xyz_of_white(double kelvin) {
  const double t = 1e3 / kelvin;
  double x, y;
  if (kelvin < 4000) {
    x = ((-0.2661239 * t - 0.2343589) * t + 0.8776956) * t + 0.179910;
    y = kelvin < 2222 ? ((-1.1063814 * x - 1.34811020) * x + 2.18555832) * x - 0.20219683
                      : ((-0.9549476 * x - 1.37418593) * x + 2.09137015) * x - 0.16748867;
  } else {
    x = kelvin <= 7000 ? ((-4.6070 * t + 2.9678) * t + 0.09911) * t + 0.244063
                       : ((-2.0064 * t + 1.9018) * t + 0.24748) * t + 0.237040;
    y = -3 * x * x + 2.870 * x - 0.275;
  }
  return {x / y, 1, (1 - x - y) / y};
}

cv::Mat table(double (*value_of)(double)) {
  cv::Mat values(1, 256, CV_32F);
  for (int i = 0; i < 256; ++i) values.at<float>(i) = static_cast<float>(value_of(i / 255.0));
  return values;
}

}  // namespace

double linear_from_srgb(double value) {
  return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

double srgb_from_linear(double value) {
  return value <= 0.0031308 ? value * 12.92 : 1.055 * std::pow(value, 1 / 2.4) - 0.055;
}

colour::Lab lab_of(const cv::Vec3d& linear_rgb) {
  const cv::Vec3d xyz = kXyzFromRgb * linear_rgb;
  const cv::Vec3d white = kXyzFromRgb * cv::Vec3d(1, 1, 1);
  const double fx = cube_root_part(xyz[0] / white[0]);
  const double fy = cube_root_part(xyz[1] / white[1]);
  const double fz = cube_root_part(xyz[2] / white[2]);
  return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

cv::Vec3d mean_light(const cv::Mat& linear, const cv::Mat& mask) {
  const cv::Scalar mean = cv::mean(linear, mask.empty() ? cv::noArray() : mask);
  return {mean[0], mean[1], mean[2]};
}

cv::Matx33d cast_of(double kelvin) {
  const cv::Vec3d from = kBradford * (kXyzFromRgb * cv::Vec3d(1, 1, 1));
  const cv::Vec3d to = kBradford * xyz_of_white(kelvin);
  const cv::Matx33d gains = cv::Matx33d::diag({to[0] / from[0], to[1] / from[1], to[2] / from[2]});
  const cv::Matx33d cast = (kBradford * kXyzFromRgb).inv() * gains * kBradford * kXyzFromRgb;
  const double green = cast(1, 0) + cast(1, 1) + cast(1, 2);
  return cast * (1 / green);
}

cv::Mat linear_picture(const cv::Mat& srgb) {
  static const cv::Mat kTable = table(linear_from_srgb);
  cv::Mat linear;
  cv::LUT(srgb, kTable, linear);
  return linear;
}

cv::Mat through_curve(const cv::Mat& linear, double most_light, const std::vector<float>& knots) {
  const auto last = static_cast<float>(knots.size() - 1);
  cv::Mat root;
  cv::max(linear, 0, root);
  cv::min(root, most_light, root);
  cv::sqrt(root * (last * last / most_light), root);
  cv::Mat bytes(linear.size(), CV_8UC3);
  for (int y = 0; y < root.rows; ++y) {
    const float* in = root.ptr<float>(y);
    uchar* out = bytes.ptr<uchar>(y);
    for (int i = 0; i < root.cols * 3; ++i) {
      const auto knot = static_cast<std::size_t>(std::min(last - 1, in[i]));
      const float value = knots[knot] + (knots[knot + 1] - knots[knot]) * (in[i] - static_cast<float>(knot));
      out[i] = static_cast<uchar>(value + 0.5f);
    }
  }
  return bytes;
}

cv::Mat srgb_picture(const cv::Mat& linear) {
  static const std::vector<float> kKnots = [] {
    std::vector<float> knots(1025);
    for (std::size_t i = 0; i < knots.size(); ++i) {
      const double root = static_cast<double>(i) / 1024;
      knots[i] = static_cast<float>(255 * srgb_from_linear(root * root));
    }
    return knots;
  }();
  return through_curve(linear, 1, kKnots);
}

}  // namespace farflung::simulator
