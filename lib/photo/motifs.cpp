#include "photo/motifs.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "photo/region.hpp"

namespace farflung::photo {
namespace {

constexpr std::array<double, 4> kReaches = {0.006, 0.012, 0.025, 0.05};  ///< of the picture's longer side
constexpr double kFilled = 0.9;        ///< how nearly the hull of all motifs is a quadrilateral
constexpr double kLeastFilled = 0.5;   ///< of the least cloth, spread as far as was looked for its motifs
constexpr double kApart = 0.05;        ///< of the smaller, that two cloths side by side seem to share at most
constexpr double kCovered = 0.9;       ///< of what cloths side by side span, that they cover
constexpr double kLeastMotif = 0.004;  ///< of the least cloth: less is dust

/// `cloth` without what is too small to be a motif.
cv::Mat without_dust(const cv::Mat& cloth, double least) {
  cv::Mat labels, stats, centres;
  const int count = cv::connectedComponentsWithStats(cloth, labels, stats, centres, 4);
  std::vector<std::uint8_t> stays(count);
  for (int i = 1; i < count; ++i) stays[i] = stats.at<int>(i, cv::CC_STAT_AREA) >= kLeastMotif * least ? 255 : 0;
  cv::Mat kept(cloth.size(), CV_8U);
  for (int row = 0; row < cloth.rows; ++row) {
    const auto* from = labels.ptr<int>(row);
    auto* to = kept.ptr(row);
    for (int column = 0; column < cloth.cols; ++column) to[column] = stays[from[column]];
  }
  return kept;
}

bool at_rim(const cv::Rect& box, cv::Size picture) {
  return box.x < 2 || box.y < 2 || box.br().x > picture.width - 2 || box.br().y > picture.height - 2;
}

/// The quadrilateral that a gathering of motifs fills, where it does.
std::optional<Quad> filled_by(const cv::Mat& gathering, Quad (*outline)(const std::vector<cv::Point>&), double least) {
  const std::vector<cv::Point> ends = ends_of_rows(gathering);
  std::vector<cv::Point> hull;
  cv::convexHull(ends, hull);
  cv::Mat filled = cv::Mat::zeros(gathering.size(), CV_8U);
  cv::fillConvexPoly(filled, hull, 255);
  const Quad quad = outline(ends);
  if (!convex(quad) || area(quad) < least || agreement(quad, filled) < kFilled) return {};
  return quad;
}

}  // namespace

std::vector<Quad> gathered_motifs(const cv::Mat& cloth, double least, Quad (*outline)(const std::vector<cv::Point>&)) {
  const double longer = std::max(cloth.cols, cloth.rows);
  const auto width_of = [&](double reach) { return 2 * static_cast<int>(reach * longer / 2) + 1; };
  // Only where there is any: most of a picture may be bare.
  const cv::Rect bound = cv::boundingRect(cloth);
  if (bound.empty()) return {};
  const cv::Rect part = with_rim(bound, width_of(kReaches.back()), cloth.size());
  const cv::Mat motifs = without_dust(cloth(part), least);
  std::vector<Quad> quads;
  for (const double reach : kReaches) {
    const int width = width_of(reach);
    cv::Mat near, labels, stats, centres;
    cv::dilate(motifs, near, cv::getStructuringElement(cv::MORPH_RECT, {width, width}));
    const int count = cv::connectedComponentsWithStats(near, labels, stats, centres, 4);
    for (int i = 1; i < count; ++i) {
      const cv::Rect box = box_of(stats, i);
      if (stats.at<int>(i, cv::CC_STAT_AREA) < least) continue;
      const cv::Mat gathering = (labels(box) == i) & motifs(box);
      const cv::Rect of_motifs = cv::boundingRect(gathering);
      const cv::Point at = box.tl() + part.tl();
      if (at_rim(of_motifs + at, cloth.size())) continue;
      const std::optional<Quad> quad = filled_by(gathering, outline, kLeastFilled * least);
      if (quad && std::find(quads.begin(), quads.end(), moved(*quad, at)) == quads.end())
        quads.push_back(moved(*quad, at));
    }
  }
  return quads;
}

bool lie_side_by_side(const std::vector<Quad>& rectangles, const Quad& quad) {
  double covered = 0;
  for (auto one = rectangles.begin(); one != rectangles.end(); ++one) {
    if (std::any_of(rectangles.begin(), one, [&](const Quad& other) { return overlap(other, *one) > kApart; }))
      return false;
    covered += area(*one);
  }
  return rectangles.size() > 1 && covered > kCovered * area(quad);
}

}  // namespace farflung::photo
