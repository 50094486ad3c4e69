#include "simulator/piece.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/field.hpp"
#include "simulator/light.hpp"

namespace farflung::simulator {
namespace {

constexpr double kTooth = 0.16;        // inches from tip to tip of pinking shears
constexpr double kToothDepth = 0.075;  // inches

// The outline, all of it within the outer rectangle and its corners on the corners: pinked or plain, its sides a little
// wavy as cloth lies.
std::vector<cv::Point2d> outline_of(const Placed& cloth, Rng& rng) {
  std::vector<cv::Point2d> outline;
  const bool pinked = cloth.edge == Placed::Edge::pinked;
  const auto side = [&](cv::Point2d from, cv::Point2d along, cv::Point2d inward, double length) {
    const int teeth = std::max(4, cvRound(length / kTooth));
    const double phase = rng.between(0, 2 * CV_PI), waves = rng.between(0.6, 2.2);
    for (int k = 0; k < 2 * teeth; ++k) {
      const double t = k / (2.0 * teeth);
      const bool dip = pinked && k % 2 == 1 && k > 1 && k < 2 * teeth - 1;
      const double wave =
          (0.5 + 0.5 * std::sin(phase + 2 * CV_PI * waves * t)) * std::min(1.0, 12 * std::min(t, 1 - t));
      outline.push_back(from + along * (length * t) + inward * (cloth.waviness * wave + (dip ? kToothDepth : 0)));
    }
  };
  side({0, 0}, {1, 0}, {0, 1}, cloth.width);
  side({cloth.width, 0}, {0, 1}, {-1, 0}, cloth.height);
  side({cloth.width, cloth.height}, {-1, 0}, {0, -1}, cloth.width);
  side({0, cloth.height}, {0, -1}, {1, 0}, cloth.height);
  return outline;
}

cv::Mat shape_of(const Placed& cloth, cv::Size size, const cv::Matx33d& from_cloth, Rng& rng) {
  if (cloth.edge != Placed::Edge::pinked && cloth.waviness <= 0) return cv::Mat::ones(size, CV_32F);
  cv::Mat shape = cv::Mat::zeros(size, CV_8U);
  std::vector<cv::Point> corners;
  for (const cv::Point2d p : outline_of(cloth, rng)) {
    corners.emplace_back(cvRound((from_cloth(0, 0) * p.x - 0.5) * (1 << kShift)),
                         cvRound((from_cloth(1, 1) * p.y - 0.5) * (1 << kShift)));
  }
  cv::fillPoly(shape, std::vector<std::vector<cv::Point>>{corners}, 255, cv::LINE_AA, kShift);
  shape.convertTo(shape, CV_32F, 1 / 255.0);
  return shape;
}

// A ridge of light and shade about a line, `distance` inches from it: light on one side, dark on the other.
double ridge(double distance, double width) {
  const double t = distance / width;
  return t * std::exp(0.5 - t * t / 2);
}

// Light and shade along one way of the cloth: creases at its middle, rounding at its folded edges.
std::vector<float> profile(double length, int pixels, bool creased, bool folded, double crease_at) {
  std::vector<float> shade(static_cast<std::size_t>(pixels));
  for (int i = 0; i < pixels; ++i) {
    const double x = (i + 0.5) / pixels * length;
    double value = 1;
    if (creased) value += 0.07 * ridge(x - crease_at * length, 0.035);
    if (folded) value += 0.05 * std::exp(-x / 0.05) - 0.16 * std::exp(-(length - x) / 0.06);
    shade[static_cast<std::size_t>(i)] = static_cast<float>(value);
  }
  return shade;
}

}  // namespace

Piece piece_of(const Placed& cloth, double pixels_per_inch, Seed seed) {
  Piece piece;
  piece.light = cut(cloth.fabric, {cloth.from.x, cloth.from.y, cloth.width, cloth.height}, pixels_per_inch);
  piece.lab = lab_of(mean_light(piece.light));
  const cv::Size size = piece.light.size();
  const double fx = size.width / cloth.width, fy = size.height / cloth.height;
  piece.from_cloth = {fx, 0, -0.5, 0, fy, -0.5, 0, 0, 1};
  Rng rng(seed);
  piece.shape = shape_of(cloth, size, piece.from_cloth, rng);

  cv::Mat coarse = deviates({std::max(3, cvRound(cloth.width / 1.6)), std::max(3, cvRound(cloth.height / 2.2))}, rng);
  cv::Mat shade = 1 + cloth.ripples * drawn_out(coarse, size);
  const bool folded = cloth.edge == Placed::Edge::folded;
  const double at = rng.between(0.46, 0.54);
  const std::vector<float> across = profile(cloth.width, size.width, cloth.creased, folded, at);
  const std::vector<float> down = profile(cloth.height, size.height, cloth.creased, folded, at);
  shade = shade.mul(cv::Mat(down, true) * cv::Mat(across, true).t());
  cv::Mat three;
  cv::merge(std::vector<cv::Mat>{shade, shade, shade}, three);
  piece.light = piece.light.mul(three);
  return piece;
}

}  // namespace farflung::simulator
