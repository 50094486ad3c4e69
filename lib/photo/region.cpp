#include "photo/region.hpp"

#include <algorithm>

#include <opencv2/imgproc.hpp>

namespace farflung::photo {

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
