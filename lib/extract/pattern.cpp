#include "extract/pattern.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "extract/autocorrelation.hpp"
#include "extract/steps.hpp"

namespace farflung::extract {
namespace {

constexpr int kSide = 384;            ///< pixels of the longer side in which repeats are looked for
constexpr double kSlow = 0.2;         ///< of it: changes slower than this are light, not print
constexpr double kLeastContrast = 2;  ///< dE: the weave of plain cloth has less
constexpr double kRing = 1.05;  ///< the nearest motifs, strewn evenly, are this many sides of a motif's square away

/// The side of the square that each motif has to itself, in pixels.
std::optional<double> motif_side(const cv::Mat& correlation) {
  const auto ring = first_hump(by_distance(correlation), 0.4);
  if (!ring) return {};
  const double side = ring->at / kRing;
  if (const auto lattice = lattice_near(correlation, side)) return std::sqrt(lattice->area());
  return side;
}

/// The period of a stripe, straight across it.
std::optional<double> stripe_period(const cv::Mat& correlation, double degrees) {
  const auto hump = first_hump(by_distance(correlation, degrees + 90, 4), 0.9);
  if (!hump) return {};
  return hump->at;
}

print::Direction direction_of(const std::vector<cv::Mat>& channels) {
  double xx = 0, xy = 0, yy = 0;
  for (const cv::Mat& channel : channels) {
    cv::Mat dx, dy;
    cv::Sobel(channel, dx, CV_32F, 1, 0, 3);
    cv::Sobel(channel, dy, CV_32F, 0, 1, 3);
    const cv::Rect inner(2, 2, channel.cols - 4, channel.rows - 4);
    xx += dx(inner).dot(dx(inner)), xy += dx(inner).dot(dy(inner)), yy += dy(inner).dot(dy(inner));
  }
  const double coherence = std::hypot(xx - yy, 2 * xy) / std::max(1e-9, xx + yy);
  if (coherence < 0.75) return {};
  // The gradient runs across the stripe.
  double degrees = 0.5 * std::atan2(2 * xy, xx - yy) * 180 / CV_PI + 90;
  degrees = std::fmod(degrees + 360, 180);
  return {print::Direction::Kind::stripe, degrees};
}

}  // namespace

Repeat repeat_of(const photo::Picture& swatch) {
  const Detail detail = detail_of(swatch, kSide, kSlow);
  const std::vector<cv::Mat>& channels = detail.channels;
  Repeat repeat;
  if (contrast(channels) < kLeastContrast || std::min(channels[0].cols, channels[0].rows) < 32) return repeat;
  repeat.direction = direction_of(channels);
  const cv::Mat correlation = autocorrelation(channels);
  const bool striped = repeat.direction.kind == print::Direction::Kind::stripe;
  const auto size = striped ? stripe_period(correlation, repeat.direction.degrees) : motif_side(correlation);
  if (size) repeat.size = *size / detail.shrink;
  return repeat;
}

}  // namespace farflung::extract
