#include "photo_bench/reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include <opencv2/imgproc.hpp>

#include "extract/features.hpp"
#include "print/distance.hpp"

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

/// Each corner's error over the mean side, whichever of its corners the cloth begins with.
std::array<double, 4> corner_errors(const Outline& a, const Outline& b) {
  std::array<double, 4> best{1e9, 1e9, 1e9, 1e9};
  double around = 0;
  for (int turn = 0; turn < 4; ++turn) {
    std::array<double, 4> off{};
    for (int i = 0; i < 4; ++i) off[i] = cv::norm(a[i] - b[(i + turn) % 4]);
    if (*std::max_element(off.begin(), off.end()) < *std::max_element(best.begin(), best.end())) best = off;
  }
  for (int i = 0; i < 4; ++i) around += cv::norm(a[i] - a[(i + 1) % 4]);
  for (double& off : best) off /= around / 4;
  return best;
}

/// Kendall's tau of pairs: how much oftener two stand in the same order than not.
double kendall(const std::vector<std::pair<double, double>>& pairs) {
  double sum = 0, count = 0;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const double way = (pairs[i].first - pairs[j].first) * (pairs[i].second - pairs[j].second);
      sum += way > 0 ? 1 : way < 0 ? -1 : 0, count += 1;
    }
  }
  return sum / count;
}

/// By the side of the square as large, which an outline that begins at another corner has as well.
void read_inches(const simulator::Placed& cloth, const photo::Swatch& swatch, const photo::Take& take,
                 Reading& reading) {
  std::array<cv::Point2d, 4> corners;
  for (std::size_t i = 0; i < 4; ++i) {
    const double full = take.photograph.full_from_picture();
    const auto [x, y] = take.reference.sheet->sheet(swatch.corners[i][0] / full, swatch.corners[i][1] / full);
    corners[i] = {x, y};
  }
  const double area = std::abs((corners[2] - corners[0]).cross(corners[3] - corners[1])) / 2;
  const double error = std::abs(std::sqrt(area / (cloth.width * cloth.height)) - 1);
  reading.inches.push_back(error);
  if (cv::norm(corners[0] + corners[1] + corners[2] + corners[3]) / 4 > kFar) reading.far.push_back(error);
}

}  // namespace

Reading read(const simulator::Scene& scene, const simulator::Photograph& truth, const photo::Take& take) {
  Reading reading;
  std::vector<std::pair<double, double>> lightness;  // true, measured
  reading.there = static_cast<int>(truth.cloths.size());
  std::vector<bool> matched(truth.cloths.size());
  for (const photo::Swatch& swatch : take.swatches) {
    std::optional<std::size_t> match;
    for (std::size_t i = 0; i < truth.cloths.size(); ++i) {
      if (!matched[i] && agreement(outline(swatch), outline(truth.cloths[i])) > 0.85) match = i;
    }
    if (!match) {
      ++reading.false_ones;
      continue;
    }
    const simulator::Seen& cloth = truth.cloths[*match];
    matched[*match] = true;
    ++reading.found;
    reading.sure += swatch.doubt.empty();
    const std::array<double, 4> off = corner_errors(outline(cloth), outline(swatch));
    reading.off.push_back(*std::max_element(off.begin(), off.end()));
    reading.corners.insert(reading.corners.end(), off.begin(), off.end());
    if (take.reference.sheet) read_inches(scene.cloths[*match], swatch, take, reading);
    const print::Features features = extract::features_of(swatch.picture, swatch.inches);
    reading.dE.push_back(colour::delta_e_2000(features.lab, cloth.lab));
    const simulator::Truth fabric = simulator::truth_of(scene.cloths[*match].fabric);
    reading.palette.push_back(print::transport(features.palette, fabric.palette));
    if (features.scale && fabric.scale) reading.scale.push_back(std::abs(*features.scale / *fabric.scale - 1));
    using Kind = print::Direction::Kind;
    if (fabric.direction.kind == Kind::stripe) {
      ++reading.stripes;
      if (features.direction.kind == Kind::stripe)
        reading.stripe.push_back(std::abs(std::remainder(features.direction.degrees - fabric.direction.degrees, 180)));
    }
    const bool told = features.direction.kind == Kind::one_way;
    if (fabric.direction.kind == Kind::one_way) {
      ++reading.one_way, reading.one_way_told += told;
    } else {
      reading.one_way_false += told;
    }
    lightness.emplace_back(cloth.lab.L, features.lab.L);
  }
  if (lightness.size() >= 6) reading.tau = kendall(lightness);
  return reading;
}

}  // namespace farflung::photo_bench
