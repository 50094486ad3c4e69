#include "photo/lattice.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "base/median.hpp"
#include "photo/region.hpp"

namespace farflung::photo {
namespace {

constexpr int kMostLines = 9;       ///< rows or columns of cloths, at most
constexpr double kGap = 0.22;       ///< of a line between cloths, how much of a valley it must be
constexpr double kUnlikeCells = 5;  ///< dE (1976) of means: neighbours that differ by less may be one cloth
constexpr double kSolid = 0.7;      ///< of its hull, that a block of cloths covers

using Frame = cv::Matx33d;  ///< region_from_unit

cv::Point2d projected(const cv::Matx33d& h, double x, double y) {
  const cv::Vec3d p = h * cv::Vec3d(x, y, 1);
  return {p[0] / p[2], p[1] / p[2]};
}

float value(const cv::Mat& field, cv::Point2d p) {
  const int column = std::clamp(cvRound(p.x), 0, field.cols - 1), row = std::clamp(cvRound(p.y), 0, field.rows - 1);
  return field.at<float>(row, column);
}

/// How much each line across the frame is a valley between two cloths, 0..1; `down` for lines that run down.
std::vector<double> valleys(const cv::Mat& region, const cv::Mat& unlike, const Frame& frame, bool down) {
  constexpr int kAlong = 90;
  const cv::Point2d from = projected(frame, 0, 0), to = down ? projected(frame, 1, 0) : projected(frame, 0, 1);
  const int count = std::clamp(static_cast<int>(cv::norm(to - from)), 60, 1600);
  const double beside = 4.0 / count;
  std::vector<double> result(count);
  std::vector<float> line(count);
  std::vector<int> hits(count);
  for (int k = 0; k < kAlong; ++k) {
    const double v = (k + 0.5) / kAlong;
    for (int i = 0; i < count; ++i) {
      const double u = (i + 0.5) / count;
      const cv::Point2d p = down ? projected(frame, u, v) : projected(frame, v, u);
      line[i] = value(unlike, p);
      const int column = std::clamp(cvRound(p.x), 0, region.cols - 1),
                row = std::clamp(cvRound(p.y), 0, region.rows - 1);
      hits[i] += region.at<std::uint8_t>(row, column) != 0;
    }
    const int step = std::max(2, static_cast<int>(beside * count));
    for (int i = step; i + step < count; ++i) {
      const float low = std::min({line[i - 1], line[i], line[i + 1]}), high = std::min(line[i - step], line[i + step]);
      result[i] += std::max(0.0F, high - low) / (high + 3) / kAlong;
    }
  }
  // Where half a line lies off the cloth (a short last row), it counts by the half that does not.
  for (int i = 0; i < count; ++i) result[i] *= std::min(2.5, static_cast<double>(kAlong) / std::max(1, hits[i]));
  return result;
}

struct Lines {
  std::vector<double> at;  ///< 0 and 1 included
  double score = 0;
};

/// The most numerous even division whose every line is a valley.
Lines division(const std::vector<double>& valley) {
  const double usual = median(valley);
  const int count = static_cast<int>(valley.size());
  Lines best{{0, 1}, 0};
  std::vector<Lines> all;
  double most = 0;
  for (int n = 2; n <= kMostLines; ++n) {
    Lines lines{{0}, 0};
    double least = 1;
    for (int k = 1; k < n; ++k) {
      const int middle = k * count / n, reach = std::max(2, static_cast<int>(0.07 * count / n));
      int where = middle;
      for (int i = std::max(0, middle - reach); i <= std::min(count - 1, middle + reach); ++i) {
        if (valley[i] > valley[where]) where = i;
      }
      lines.at.push_back((where + 0.5) / count);
      lines.score += (valley[where] - usual) / (n - 1);
      least = std::min(least, valley[where] - usual);
    }
    lines.at.push_back(1);
    if (least < 0.5 * kGap) lines.score = 0;
    most = std::max(most, lines.score);
    all.push_back(lines);
  }
  for (const Lines& lines : all) {
    if (lines.score > kGap && lines.score > 0.72 * most) best = lines;
  }
  return best;
}

struct Cells {
  std::vector<Quad> quads;
  double score = 0;
};

cv::Vec3f mean_of(const cv::Mat& lab, const Frame& frame, double u0, double u1, double v0, double v1) {
  constexpr int kSteps = 10;
  cv::Vec3f sum;
  for (int i = 0; i < kSteps * kSteps; ++i) {
    const int across = i % kSteps, down = i / kSteps;
    const cv::Point2d p = projected(frame, u0 + (u1 - u0) * (0.15 + 0.7 * across / (kSteps - 1)),
                                    v0 + (v1 - v0) * (0.15 + 0.7 * down / (kSteps - 1)));
    sum += lab.at<cv::Vec3f>(std::clamp(cvRound(p.y), 0, lab.rows - 1), std::clamp(cvRound(p.x), 0, lab.cols - 1));
  }
  return sum * (1.0F / (kSteps * kSteps));
}

double covered(const cv::Mat& region, const Frame& frame, double u0, double u1, double v0, double v1) {
  constexpr int kSteps = 10;
  int hits = 0;
  for (int i = 0; i < kSteps * kSteps; ++i) {
    const int across = i % kSteps, down = i / kSteps;
    const cv::Point2d p =
        projected(frame, u0 + (u1 - u0) * (across + 0.5) / kSteps, v0 + (v1 - v0) * (down + 0.5) / kSteps);
    const int column = cvRound(p.x), row = cvRound(p.y);
    hits += column >= 0 && row >= 0 && column < region.cols && row < region.rows &&
            region.at<std::uint8_t>(row, column) != 0;
  }
  return static_cast<double>(hits) / (kSteps * kSteps);
}

Cells cells_in(const cv::Mat& region, const cv::Mat& unlike, const cv::Mat& lab, const Frame& frame) {
  const Lines across = division(valleys(region, unlike, frame, true)),
              down = division(valleys(region, unlike, frame, false));
  const std::size_t columns = across.at.size() - 1, rows = down.at.size() - 1;
  if (columns * rows < 4 || columns < 2 || rows < 2) return {};
  Cells cells;
  cv::Mat mean(static_cast<int>(rows), static_cast<int>(columns), CV_32FC3);
  cv::Mat there = cv::Mat::zeros(mean.size(), CV_8U);
  for (std::size_t r = 0; r < rows; ++r) {
    for (std::size_t c = 0; c < columns; ++c) {
      const double u0 = across.at[c], u1 = across.at[c + 1], v0 = down.at[r], v1 = down.at[r + 1];
      const auto row = static_cast<int>(r), column = static_cast<int>(c);
      if (covered(region, frame, u0, u1, v0, v1) < 0.7) continue;
      there.at<std::uint8_t>(row, column) = 1;
      mean.at<cv::Vec3f>(row, column) = mean_of(lab, frame, u0, u1, v0, v1);
      cells.quads.push_back(
          {projected(frame, u0, v0), projected(frame, u1, v0), projected(frame, u1, v1), projected(frame, u0, v1)});
    }
  }
  int unlike_pairs = 0, pairs = 0;
  for (int row = 0; row < there.rows; ++row) {
    for (int column = 0; column < there.cols; ++column) {
      for (const auto& [dr, dc] : {std::pair{0, 1}, {1, 0}}) {
        if (row + dr >= there.rows || column + dc >= there.cols) continue;
        if (there.at<std::uint8_t>(row, column) == 0 || there.at<std::uint8_t>(row + dr, column + dc) == 0) continue;
        ++pairs;
        unlike_pairs +=
            cv::norm(mean.at<cv::Vec3f>(row, column) - mean.at<cv::Vec3f>(row + dr, column + dc)) > kUnlikeCells;
      }
    }
  }
  if (pairs == 0 || unlike_pairs < 0.6 * pairs) return {};
  cells.score = across.score + down.score;
  return cells;
}

/// Quads round the hull, each side along one of its edges: a short last row makes a hull of five or six.
std::vector<Quad> frames_round(const cv::Mat& region, double& hull_area) {
  const std::vector<cv::Point> points = ends_of_rows(region);
  if (points.size() < 20) return {};
  std::vector<cv::Point> hull, corners;
  cv::convexHull(points, hull, true);
  hull_area = cv::contourArea(hull);
  const double around = cv::arcLength(hull, true);
  for (double share = 0.006; share < 0.1; share *= 1.3) {
    cv::approxPolyDP(hull, corners, share * around, true);
    if (corners.size() <= 7) break;
  }
  const int n = static_cast<int>(corners.size());
  std::vector<Quad> frames;
  if (n < 4 || n > 7) return frames;
  const auto edge = [&](int i) { return std::pair<cv::Point2d, cv::Point2d>(corners[i], corners[(i + 1) % n]); };
  for (int mask = 0; mask < 1 << n; ++mask) {
    std::vector<int> chosen;
    for (int i = 0; i < n; ++i) {
      if ((mask >> i & 1) != 0) chosen.push_back(i);
    }
    if (chosen.size() != 4) continue;
    Quad quad;
    for (int k = 0; k < 4; ++k) {
      const auto before = edge(chosen[k]), after = edge(chosen[(k + 1) % 4]);
      quad[k] = meet(before.first, before.second, after.first, after.second).value_or(cv::Point2d(1e9, 1e9));
    }
    if (area(quad) < 0) std::reverse(quad.begin(), quad.end());
    if (!convex(quad) || area(quad) > 1.7 * hull_area || area(quad) < 0.9 * hull_area) continue;
    frames.push_back(from_top_left(quad));
  }
  return frames;
}

}  // namespace

std::vector<Quad> cells_of_block(const cv::Mat& region, const cv::Mat& unlike, const cv::Mat& lab) {
  double hull_area = 1;
  const std::vector<Quad> frames = frames_round(region, hull_area);
  if (frames.empty() || cv::countNonZero(region) < kSolid * hull_area) return {};
  Cells best;
  for (const Quad& quad : frames) {
    const cv::Point2f unit[4] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
    cv::Point2f seen[4];
    for (int i = 0; i < 4; ++i) seen[i] = cv::Point2f(quad[i]);
    const Frame frame = cv::getPerspectiveTransform(unit, seen);
    Cells cells = cells_in(region, unlike, lab, frame);
    if (cells.score > best.score) best = cells;
  }
  return best.quads;
}

}  // namespace farflung::photo
