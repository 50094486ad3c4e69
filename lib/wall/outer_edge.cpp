#include "wall/outer_edge.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "photo/lab_table.hpp"
#include "photo/mat.hpp"
#include "photo/sides.hpp"

namespace farflung::wall {
namespace {

constexpr double kLongest = 1200;   ///< of the picture in which edges are looked for; all pixels here are its own
constexpr int kPlaces = 240;        ///< along a side
constexpr int kOutside = 8;         ///< pixels outward of a side where looking begins
constexpr double kInside = 0.05;    ///< of the side's length, inward, where it ends
constexpr double kNear = 1.5;       ///< pixels on each side of an edge, between which it steps
constexpr double kWide = 6;         ///< the same, between which a shadow changes as much and more
constexpr double kStep = 2.5;       ///< dE (1976): less is no edge
constexpr double kSharp = 0.55;     ///< of the change between the wider places, that an edge steps at once
constexpr double kTolerance = 2;    ///< pixels from the line that most agree on
constexpr double kMostAgree = 0.5;  ///< of the places, that must

/// Mean CIELAB of a few places beside each other along the side.
cv::Vec3f colour_at(const cv::Mat& lab, const photo::Side& side, double along, double out) {
  constexpr int kBeside = 2;
  cv::Vec3f sum;
  for (int k = -kBeside; k <= kBeside; ++k) {
    const cv::Point2d p = side.place(along + k / side.length, out);
    const int column = std::clamp(cvRound(p.x), 0, lab.cols - 1), row = std::clamp(cvRound(p.y), 0, lab.rows - 1);
    sum += lab.at<cv::Vec3f>(row, column);
  }
  return sum * (1.0F / (2 * kBeside + 1));
}

/// Coming from outside, the first place where colour steps and does not fade.
std::optional<double> first_edge(const cv::Mat& lab, const photo::Side& side, double along) {
  const auto change = [&](double out, double apart) {
    return cv::norm(colour_at(lab, side, along, out + apart) - colour_at(lab, side, along, out - apart));
  };
  const int last = -static_cast<int>(kInside * side.length);
  for (int out = kOutside; out >= last; --out) {
    double step = change(out, kNear);
    if (step < kStep || step < kSharp * change(out, kWide)) continue;
    while (change(out - 1, kNear) > step) step = change(--out, kNear);
    // Between pixels, where a parabola through the three steps has its top.
    const double outer = change(out + 1, kNear), inner = change(out - 1, kNear), bend = 2 * step - outer - inner;
    return bend > 0 ? out + std::clamp((outer - inner) / (2 * bend), -0.5, 0.5) : out;
  }
  return {};
}

/// The straight edge of a side, where most of it shows one.
std::optional<photo::Line> edge_along(const cv::Mat& lab, const photo::Side& side) {
  std::vector<photo::Crossing> points;
  for (int i = 0; i < kPlaces; ++i) {
    const double along = 0.02 + 0.96 * (i + 0.5) / kPlaces;
    if (const auto out = first_edge(lab, side, along)) points.push_back({along, *out});
  }
  const auto line = photo::agreed(points, kTolerance, 40, 0.3);
  if (!line) return {};
  const auto agrees = [&](const photo::Crossing& p) { return std::abs(p.out - line->at(p.along)) <= kTolerance; };
  if (std::count_if(points.begin(), points.end(), agrees) < kMostAgree * kPlaces) return {};
  return photo::least_squares_line(points, *line, kTolerance);
}

}  // namespace

photo::Corners on_own_edges(const photo::Picture& photograph, const photo::Corners& outline) {
  const double scale = std::min(1.0, kLongest / std::max(photograph.columns, photograph.rows));
  cv::Mat small;
  cv::resize(photo::view(photograph), small, {}, scale, scale, cv::INTER_AREA);
  cv::GaussianBlur(small, small, {}, 0.7);
  const cv::Mat lab = photo::lab_of(small);
  photo::Quad quad;
  for (std::size_t k = 0; k < 4; ++k) quad[k] = {outline[k][0] * scale - 0.5, outline[k][1] * scale - 0.5};
  if (!photo::convex(quad)) return outline;
  std::array<std::array<cv::Point2d, 2>, 4> lines;
  for (int i = 0; i < 4; ++i) {
    const photo::Side side = photo::side_of(quad, i);
    const photo::Line line = edge_along(lab, side).value_or(photo::Line{});
    lines[i] = {side.place(0, line.at(0)), side.place(1, line.at(1))};
  }
  const photo::Quad moved = photo::quad_between(lines);
  if (!photo::convex(moved)) return outline;
  photo::Corners corners{};
  for (std::size_t k = 0; k < 4; ++k) corners[k] = {(moved[k].x + 0.5) / scale, (moved[k].y + 0.5) / scale};
  return corners;
}

}  // namespace farflung::wall
