#include "photo/split.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

constexpr int kAngles = 25;         ///< tried on either side of each axis of the region
constexpr double kAngleStep = 0.7;  ///< degrees
constexpr int kBeside = 4;          ///< pixels: where a gap's neighbours are looked at
constexpr double kGap = 0.6;        ///< how much of a line must look like a gap, where the cloths differ clearly
constexpr double kPlainGap = 0.85;  ///< the same, where the cloths are more alike
constexpr double kDifferent = 0.3;  ///< Bhattacharyya's distance from which two cloths differ clearly
constexpr double kAlike = 0.12;     ///< and below which they may well be one

/// A straight cut: all places p with p.normal = at.
struct Cut {
  cv::Point2d normal;
  double at = 0, score = 0;
};

/// 0..1: how far each pixel is a valley of `unlike` across direction `normal`; 1 outside the region.
cv::Mat gapness(const cv::Mat& region, const cv::Mat& unlike, cv::Point2d normal) {
  const cv::Point beside(cvRound(normal.x * kBeside), cvRound(normal.y * kBeside));
  cv::Mat result(region.size(), CV_32F);
  const auto at = [&](int column, int row) {
    return unlike.at<float>(std::clamp(row, 0, unlike.rows - 1), std::clamp(column, 0, unlike.cols - 1));
  };
  for (int row = 0; row < region.rows; ++row) {
    for (int column = 0; column < region.cols; ++column) {
      float& g = result.at<float>(row, column);
      if (region.at<std::uint8_t>(row, column) == 0) {
        g = 1;
        continue;
      }
      const float here = at(column, row);
      const float sides = std::min(at(column + beside.x, row + beside.y), at(column - beside.x, row - beside.y));
      g = std::clamp(2 - 2.5F * here / std::max(sides, 1e-3F), 0.0F, 1.0F);
    }
  }
  return result;
}

cv::Mat hull_of(const cv::Mat& region) {
  std::vector<cv::Point> points, hull;
  cv::findNonZero(region, points);
  cv::Mat filled = cv::Mat::zeros(region.size(), CV_8U);
  if (points.empty()) return filled;
  cv::convexHull(points, hull);
  cv::fillConvexPoly(filled, hull, 255);
  return filled;
}

/// The best cut at one angle: of the lines that leave enough on either side, the one that looks most like a gap.
Cut best_at(const cv::Mat& region, const cv::Mat& hull, const cv::Mat& gaps, cv::Point2d normal, double least) {
  const int reach = static_cast<int>(std::hypot(region.cols, region.rows)) + 2;
  std::vector<double> gap(2 * reach), chord(2 * reach), cloth(2 * reach);
  for (int row = 0; row < region.rows; ++row) {
    for (int column = 0; column < region.cols; ++column) {
      if (hull.at<std::uint8_t>(row, column) == 0) continue;
      const int bin = static_cast<int>(std::floor(normal.x * column + normal.y * row + 0.5)) + reach;
      chord[bin] += 1;
      gap[bin] += gaps.at<float>(row, column);
      cloth[bin] += region.at<std::uint8_t>(row, column) != 0;
    }
  }
  double all = 0, before = 0;
  for (const double c : cloth) all += c;
  Cut best{normal, 0, -1};
  for (int bin = 1; bin + 1 < 2 * reach; ++bin) {
    before += cloth[bin];
    if (before < least || all - before < least || chord[bin] < 8) continue;
    const double score = gap[bin] / chord[bin];
    if (score > best.score) best.score = score, best.at = bin - reach;
  }
  return best;
}

/// The directions of the region's two pairs of sides.
std::array<double, 2> axes(const cv::Mat& region) {
  std::vector<cv::Point> points;
  cv::findNonZero(region, points);
  const double angle = cv::minAreaRect(points).angle * CV_PI / 180;
  return {angle, angle + CV_PI / 2};
}

/// Coarse counts of colours, as square roots of shares.
std::vector<float> colours(const cv::Mat& lab, const cv::Mat& region) {
  constexpr int kL = 16, kA = 20, kB = 20;
  std::vector<float> counts(kL * kA * kB);
  double all = 0;
  for (int row = 0; row < lab.rows; row += 2) {
    for (int column = 0; column < lab.cols; column += 2) {
      if (region.at<std::uint8_t>(row, column) == 0) continue;
      // Each pixel counts in the boxes around it, so that a little less light changes little.
      const cv::Vec3f p = lab.at<cv::Vec3f>(row, column);
      const float l = std::clamp(p[0] / 7, 0.0F, kL - 1.01F), a = std::clamp(p[1] / 8 + 10, 0.0F, kA - 1.01F),
                  b = std::clamp(p[2] / 8 + 10, 0.0F, kB - 1.01F);
      const int i = static_cast<int>(l), j = static_cast<int>(a), k = static_cast<int>(b);
      const float u = l - i, v = a - j, w = b - k;
      for (int corner = 0; corner < 8; ++corner) {
        const int di = corner & 1, dj = corner >> 1 & 1, dk = corner >> 2;
        counts[((i + di) * kA + j + dj) * kB + k + dk] +=
            (di != 0 ? u : 1 - u) * (dj != 0 ? v : 1 - v) * (dk != 0 ? w : 1 - w);
      }
      all += 1;
    }
  }
  for (float& count : counts) count = std::sqrt(count / static_cast<float>(std::max(1.0, all)));
  return counts;
}

/// Bhattacharyya's distance between the colours of two parts: 0 alike .. 1 nothing in common.
double difference(const cv::Mat& lab, const cv::Mat& first, const cv::Mat& second) {
  const std::vector<float> a = colours(lab, first), b = colours(lab, second);
  double common = 0;
  for (std::size_t i = 0; i < a.size(); ++i) common += static_cast<double>(a[i]) * b[i];
  return std::sqrt(std::max(0.0, 1 - common));
}

std::array<cv::Mat, 2> parts(const cv::Mat& region, const Cut& cut) {
  std::array<cv::Mat, 2> result = {cv::Mat::zeros(region.size(), CV_8U), cv::Mat::zeros(region.size(), CV_8U)};
  for (int row = 0; row < region.rows; ++row) {
    for (int column = 0; column < region.cols; ++column) {
      if (region.at<std::uint8_t>(row, column) == 0) continue;
      const double side = cut.normal.x * column + cut.normal.y * row - cut.at;
      if (std::abs(side) > 1) result[side > 0].at<std::uint8_t>(row, column) = 255;
    }
  }
  return result;
}

std::optional<std::array<cv::Mat, 2>> cut_once(const cv::Mat& region, const cv::Mat& unlike, const cv::Mat& lab,
                                               double least) {
  const cv::Mat hull = hull_of(region);
  std::vector<Cut> cuts;
  for (const double axis : axes(region)) {
    const cv::Mat gaps = gapness(region, unlike, {std::cos(axis), std::sin(axis)});
    Cut best{{}, 0, -1};
    for (int i = -kAngles; i <= kAngles; ++i) {
      const double angle = axis + i * kAngleStep * CV_PI / 180;
      const Cut cut = best_at(region, hull, gaps, {std::cos(angle), std::sin(angle)}, least);
      if (cut.score > best.score) best = cut;
    }
    cuts.push_back(best);
  }
  std::sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) { return a.score > b.score; });
  for (const Cut& cut : cuts) {
    if (cut.score < kGap) continue;
    auto halves = parts(region, cut);
    const double different = difference(lab, halves[0], halves[1]);
    if (different > kDifferent || (cut.score > kPlainGap && different > kAlike)) return halves;
  }
  return {};
}

void split_into(const cv::Mat& region, const cv::Mat& unlike, const cv::Mat& lab, double least,
                std::vector<cv::Mat>& done) {
  if (cv::countNonZero(region) >= 2 * least) {
    if (const auto halves = cut_once(region, unlike, lab, least)) {
      for (const cv::Mat& half : *halves) split_into(half, unlike, lab, least, done);
      return;
    }
  }
  done.push_back(region);
}

}  // namespace

std::vector<cv::Mat> split_at_gaps(const cv::Mat& region, const cv::Mat& unlike, const cv::Mat& lab, double least) {
  std::vector<cv::Mat> done;
  split_into(region, unlike, lab, least, done);
  return done;
}

}  // namespace farflung::photo
