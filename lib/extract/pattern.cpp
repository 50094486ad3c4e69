#include "extract/pattern.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "extract/autocorrelation.hpp"
#include "extract/one_way.hpp"
#include "extract/run.hpp"
#include "extract/steps.hpp"

namespace farflung::extract {
namespace {

constexpr int kSide = 288;            ///< pixels of the longer side in which repeats are looked for
constexpr double kSlow = 0.2;         ///< of it: changes slower than this are light, not print
constexpr double kLeastContrast = 2;  ///< dE: the weave of plain cloth has less
constexpr double kStripe = 0.75;      ///< coherence of a stripe's edges, at least
constexpr double kLeastBands = 1.2;   ///< dE: bands that plainly turn are seen in less
constexpr double kBands = 0.85;       ///< the same of bands that run one way and the other by turns
constexpr double kLeastTurn = 0.15;   ///< by which their ways deviate, as cosine and sine, at least
constexpr double kSeen = 0.5;   ///< of the contrast, at least, that a blur must leave for the print to be seen in it
constexpr double kRing = 1.05;  ///< the nearest motifs, strewn evenly, are this many sides of a motif's square away

/// Whoever photographs a print that has a top shows it the right way up.
constexpr print::Direction kUp{print::Direction::Kind::one_way, 270};

/// The side of the square that each motif has to itself, in pixels.
std::optional<double> motif_side(const cv::Mat& correlation) {
  const auto ring = first_hump(humps_of(by_distance(correlation)), 0.4);
  if (!ring) return {};
  const double side = ring->at / kRing;
  if (const auto lattice = lattice_near(correlation, side)) return std::sqrt(lattice->area());
  return side;
}

/// The period of a stripe, straight across it: the first step after which it looks like itself, or some few of those
/// steps where it looks the same only then, as when every second band is of another ink.
std::optional<double> stripe_period(const cv::Mat& correlation, double degrees) {
  constexpr double kClearer = 1.12, kNear = 0.15;
  const std::vector<double> profile = by_distance(correlation, degrees + 90, 4);
  const std::vector<Hump> humps = humps_of(profile);
  const double sure = 0.6 * static_cast<double>(profile.size());  // farther steps rest on little of the swatch
  const auto first = first_hump(humps, 0.4);
  if (!first) return {};
  for (const int times : {2, 3, 4}) {
    for (const Hump& hump : humps) {
      const double steps = hump.at / first->at;
      if (hump.at < sure && std::abs(steps - times) < kNear * times && hump.rise > kClearer * first->rise)
        return hump.at;
    }
  }
  return first->at;
}

/// The same, blurred by `more` pixels of its own.
std::vector<cv::Mat> blurred(const std::vector<cv::Mat>& channels, double more) {
  std::vector<cv::Mat> result(channels.size());
  for (std::size_t i = 0; i < channels.size(); ++i) cv::GaussianBlur(channels[i], result[i], {}, more);
  return result;
}

std::vector<cv::Mat> halved(const std::vector<cv::Mat>& channels) {
  std::vector<cv::Mat> result(channels.size());
  for (std::size_t i = 0; i < channels.size(); ++i) cv::resize(channels[i], result[i], {}, 0.5, 0.5, cv::INTER_AREA);
  return result;
}

/// A stripe is one at the fineness that shows it best: close to, the weave's threads or the strands of a printed rope
/// cross it; the eye sees past them, as long as most of the contrast is left. Each fineness is half the one before:
/// what is blurred by two pixels loses nothing more in half of them.
print::Direction direction_of(const std::vector<cv::Mat>& channels, const Tensor& tensor) {
  const double all = contrast(channels);
  std::vector<cv::Mat> seen = channels;
  Run best;
  for (const double blur : {0.0, 2.0, 4.0, 8.0}) {
    if (blur > 2) seen = halved(seen);
    // Half the pixels' blur of 2 leaves sqrt(2^2 - 1^2) of their own to make.
    if (blur > 0) seen = blurred(seen, blur > 2 ? std::sqrt(3.0) : 2);
    if (contrast(seen) < kSeen * all || std::min(seen[0].cols, seen[0].rows) < 16) break;
    const Run run = run_of(blur > 0 ? tensor_of(seen) : tensor);
    if (run.coherence > best.coherence) best = run;
  }
  if (best.coherence < kStripe) return {};
  return {print::Direction::Kind::stripe, best.degrees};
}

/// Bands whose edges run one way and the other by turns, as a herringbone's.
struct Bands {
  std::vector<cv::Mat> ways;  ///< as ways_of has them, about their mean
  double degrees = 0;
  double shrink = 1;  ///< pixels of `ways` over pixels of the tensor
};

std::optional<Bands> bands_of(const Tensor& tensor) {
  Bands bands{ways_of(tensor)};
  double deviation = 0;
  for (cv::Mat& way : bands.ways) {
    way -= cv::mean(way)[0];
    deviation += cv::mean(way.mul(way))[0];
  }
  bands.shrink = static_cast<double>(bands.ways[0].cols) / tensor.xx.cols;
  const Run run = run_of(tensor_of(bands.ways));
  if (run.coherence < kBands || std::sqrt(deviation) < kLeastTurn) return {};
  bands.degrees = run.degrees;
  return bands;
}

}  // namespace

Repeat repeat_of(const photo::Picture& swatch) {
  const Detail detail = detail_of(swatch, kSide, kSlow);
  const std::vector<cv::Mat>& channels = detail.channels;
  const double seen = contrast(channels);
  Repeat repeat;
  if (seen < kLeastBands || std::min(channels[0].cols, channels[0].rows) < 32) return repeat;
  const Tensor tensor = tensor_of(channels);
  if (seen >= kLeastContrast) repeat.direction = direction_of(channels, tensor);
  if (repeat.direction.kind == print::Direction::Kind::stripe) {
    const auto period = stripe_period(autocorrelation(channels), repeat.direction.degrees);
    if (period) repeat.size = *period / detail.shrink;
  } else if (const auto bands = bands_of(tensor)) {
    repeat.direction = {print::Direction::Kind::stripe, bands->degrees};
    const auto period = stripe_period(autocorrelation(bands->ways), bands->degrees);
    if (period) repeat.size = *period / (bands->shrink * detail.shrink);
  } else if (const auto side = seen < kLeastContrast ? std::nullopt : motif_side(autocorrelation(channels))) {
    repeat.size = *side / detail.shrink;
    if (stands_one_way(channels, *side)) repeat.direction = kUp;
  }
  return repeat;
}

}  // namespace farflung::extract
