#include "photo_bench/reading.hpp"

#include <algorithm>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "extract/features.hpp"

namespace farflung::photo_bench {
namespace {

using Outline = std::vector<cv::Point2f>;

Outline outline(const simulator::Seen& seen) { return {seen.corners.begin(), seen.corners.end()}; }

/// In the simulator's pixels, whose centres are whole numbers.
Outline outline(const photo::Swatch& swatch) {
  Outline points;
  for (const auto& p : swatch.corners)
    points.emplace_back(static_cast<float>(p[0] - 0.5), static_cast<float>(p[1] - 0.5));
  return points;
}

double agreement(const Outline& a, const Outline& b) {
  Outline both;
  const double shared = cv::intersectConvexConvex(a, b, both);
  return shared / (cv::contourArea(a) + cv::contourArea(b) - shared);
}

/// The worst corner, whichever of its corners the cloth begins with.
double worst_corner(const Outline& a, const Outline& b) {
  double best = 1e9, around = 0;
  for (int turn = 0; turn < 4; ++turn) {
    double worst = 0;
    for (int i = 0; i < 4; ++i) worst = std::max(worst, cv::norm(a[i] - b[(i + turn) % 4]));
    best = std::min(best, worst);
  }
  for (int i = 0; i < 4; ++i) around += cv::norm(a[i] - a[(i + 1) % 4]);
  return best / (around / 4);
}

}  // namespace

Reading read(const simulator::Photograph& truth, const std::vector<photo::Swatch>& swatches) {
  Reading reading;
  reading.there = static_cast<int>(truth.cloths.size());
  std::vector<bool> taken(truth.cloths.size());
  for (const photo::Swatch& swatch : swatches) {
    std::optional<std::size_t> match;
    for (std::size_t i = 0; i < truth.cloths.size(); ++i) {
      if (!taken[i] && agreement(outline(swatch), outline(truth.cloths[i])) > 0.85) match = i;
    }
    if (!match) {
      ++reading.false_ones;
      continue;
    }
    const simulator::Seen& cloth = truth.cloths[*match];
    taken[*match] = true;
    ++reading.found;
    reading.sure += swatch.doubt.empty();
    reading.off.push_back(worst_corner(outline(cloth), outline(swatch)));
    reading.dE.push_back(colour::delta_e_2000(extract::mean_colour(swatch.picture), cloth.lab));
  }
  return reading;
}

}  // namespace farflung::photo_bench
