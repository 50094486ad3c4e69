#include "photo/region.hpp"

#include <algorithm>
#include <optional>

#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

/// A side of a polygon whose neighbours meet beyond it.
struct SpareSide {
  std::size_t from = 0;  ///< the corner that it begins at
  cv::Point2d meeting;
  double more = 0;  ///< by which the polygon grows without it
};

/// The one that adds least; none where no two sides so meet.
std::optional<SpareSide> most_spare_side(const std::vector<cv::Point2d>& polygon) {
  std::optional<SpareSide> best;
  const std::size_t count = polygon.size();
  for (std::size_t i = 0; i < count; ++i) {
    const cv::Point2d &from = polygon[i], &to = polygon[(i + 1) % count];
    const cv::Point2d side = to - from, before = from - polygon[(i + count - 1) % count],
                      after = to - polygon[(i + 2) % count];
    const double cross = before.cross(after), beyond = side.cross(after) / cross;
    if (std::abs(cross) < 1e-9 || beyond <= 0 || side.cross(before) / cross <= 0) continue;
    const cv::Point2d meeting = from + beyond * before;
    const double more = std::abs((meeting - from).cross(side)) / 2;
    if (!best || more < best->more) best = SpareSide{i, meeting, more};
  }
  return best;
}

}  // namespace

Quad four_corners(const std::vector<cv::Point>& points) {
  std::vector<cv::Point> hull, corners;
  cv::convexHull(points, hull);
  const double around = cv::arcLength(hull, true);
  constexpr double kFinest = 0.01, kCoarsest = 0.2, kCoarser = 1.15;  // of the way round
  double share = kFinest;
  do {
    cv::approxPolyDP(hull, corners, share * around, true);
    share *= kCoarser;
  } while (corners.size() > 4 && share < kCoarsest);
  Quad quad;
  if (corners.size() == 4) {
    for (int i = 0; i < 4; ++i) quad[i] = corners[i];
  } else {
    cv::Point2f box[4];
    cv::minAreaRect(points).points(box);
    for (int i = 0; i < 4; ++i) quad[i] = box[i];
  }
  if (area(quad) < 0) std::reverse(quad.begin(), quad.end());
  return from_top_left(quad);
}

Quad circumscribed(const std::vector<cv::Point>& points) {
  std::vector<cv::Point> hull;
  cv::convexHull(points, hull);
  std::vector<cv::Point2d> polygon(hull.begin(), hull.end());
  while (polygon.size() > 4) {
    const std::optional<SpareSide> spare = most_spare_side(polygon);
    if (!spare) break;
    polygon[spare->from] = spare->meeting;
    polygon.erase(polygon.begin() + static_cast<std::ptrdiff_t>((spare->from + 1) % polygon.size()));
  }
  if (polygon.size() != 4) return four_corners(points);
  Quad quad;
  std::copy(polygon.begin(), polygon.end(), quad.begin());
  if (area(quad) < 0) std::reverse(quad.begin(), quad.end());
  return from_top_left(quad);
}

Quad from_top_left(Quad quad) {
  const auto first = std::min_element(quad.begin(), quad.end(),
                                      [](const cv::Point2d& a, const cv::Point2d& b) { return a.x + a.y < b.x + b.y; });
  std::rotate(quad.begin(), first, quad.end());
  return quad;
}

double agreement(const Quad& quad, const cv::Mat& region) {
  cv::Mat drawn = cv::Mat::zeros(region.size(), CV_8U);
  std::vector<cv::Point> points(quad.begin(), quad.end());
  cv::fillConvexPoly(drawn, points, 255);
  const double both = cv::countNonZero(drawn & region), either = cv::countNonZero(drawn | region);
  return either > 0 ? both / either : 0;
}

Quad scaled(const Quad& quad, double factor) {
  Quad result = quad;
  for (cv::Point2d& p : result) p = (p + cv::Point2d(0.5, 0.5)) * factor - cv::Point2d(0.5, 0.5);
  return result;
}

Quad moved(const Quad& quad, cv::Point by) {
  Quad result = quad;
  for (cv::Point2d& p : result) p += cv::Point2d(by);
  return result;
}

cv::Rect with_rim(const cv::Rect& box, int rim, cv::Size picture) {
  return (box - cv::Point(rim, rim) + cv::Size(2 * rim, 2 * rim)) & cv::Rect({0, 0}, picture);
}

cv::Rect box_of(const cv::Mat& stats, int component) {
  return {stats.at<int>(component, cv::CC_STAT_LEFT), stats.at<int>(component, cv::CC_STAT_TOP),
          stats.at<int>(component, cv::CC_STAT_WIDTH), stats.at<int>(component, cv::CC_STAT_HEIGHT)};
}

}  // namespace farflung::photo
