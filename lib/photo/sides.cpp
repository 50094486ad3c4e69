#include "photo/sides.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

namespace farflung::photo {

double area(const Quad& quad) {
  double twice = 0;
  for (int i = 0; i < 4; ++i) {
    const cv::Point2d &a = quad[i], &b = quad[(i + 1) % 4];
    twice += a.x * b.y - a.y * b.x;
  }
  return twice / 2;
}

bool convex(const Quad& quad) {
  for (int i = 0; i < 4; ++i) {
    const cv::Point2d a = quad[(i + 1) % 4] - quad[i], b = quad[(i + 2) % 4] - quad[(i + 1) % 4];
    if (a.x * b.y - a.y * b.x <= 0) return false;
  }
  return true;
}

bool contains(const Quad& quad, cv::Point2d place) {
  for (int i = 0; i < 4; ++i) {
    if ((quad[(i + 1) % 4] - quad[i]).cross(place - quad[i]) < 0) return false;
  }
  return true;
}

double overlap(const Quad& a, const Quad& b) {
  if (!convex(a) || !convex(b)) return 0;
  const auto points = [](const Quad& quad) { return std::vector<cv::Point2f>(quad.begin(), quad.end()); };
  std::vector<cv::Point2f> both;
  const double shared = cv::intersectConvexConvex(points(a), points(b), both);
  return shared / std::max(1.0, std::min(area(a), area(b)));
}

double shortest_side(const Quad& quad) {
  double shortest = 1e9;
  for (int i = 0; i < 4; ++i) shortest = std::min(shortest, cv::norm(quad[i] - quad[(i + 1) % 4]));
  return shortest;
}

double longest_side(const Quad& quad) {
  double longest = 0;
  for (int i = 0; i < 4; ++i) longest = std::max(longest, cv::norm(quad[i] - quad[(i + 1) % 4]));
  return longest;
}

cv::Size2d mean_sides(const Quad& quad) {
  return {(cv::norm(quad[1] - quad[0]) + cv::norm(quad[2] - quad[3])) / 2,
          (cv::norm(quad[3] - quad[0]) + cv::norm(quad[2] - quad[1])) / 2};
}

std::vector<cv::Point2d> spread_over(const Quad& quad, int count, double rim) {
  const auto share = [&](int step) { return rim + (1 - 2 * rim) * (step + 0.5) / count; };
  std::vector<cv::Point2d> places;
  places.reserve(static_cast<std::size_t>(count) * static_cast<std::size_t>(count));
  for (int row = 0; row < count; ++row) {
    const double v = share(row);
    for (int column = 0; column < count; ++column) {
      const double u = share(column);
      places.push_back(((1 - u) * quad[0] + u * quad[1]) * (1 - v) + ((1 - u) * quad[3] + u * quad[2]) * v);
    }
  }
  return places;
}

Side side_of(const Quad& quad, int index) {
  const cv::Point2d from = quad[index], to = quad[(index + 1) % 4];
  const double length = std::max(1e-9, cv::norm(to - from));
  const cv::Point2d way = (to - from) / length;
  return {from, to, {way.y, -way.x}, length};  // clockwise with y down: outward is to the left of the way
}

std::optional<Line> agreed(const std::vector<Crossing>& points, double tolerance, std::size_t tries, double least_run) {
  std::optional<Line> best;
  double most = -1;
  const std::size_t n = points.size(), stride = std::max<std::size_t>(1, n / tries);
  for (std::size_t i = 0; i < n; i += stride) {
    for (std::size_t j = i + std::max<std::size_t>(1, n / 4); j < n; j += stride) {
      const double run = points[j].along - points[i].along;
      if (run < least_run) continue;
      const double slope = (points[j].out - points[i].out) / run;
      const Line line{points[i].out - slope * points[i].along, slope};
      double score = 0;
      for (const Crossing& p : points) {
        const double off = (p.out - line.at(p.along)) / tolerance;
        if (std::abs(off) < 1) score += p.weight * (1 - off * off);
      }
      if (score > most) most = score, best = line;
    }
  }
  return best;
}

Line least_squares_line(const std::vector<Crossing>& points, const Line& about, double tolerance) {
  double n = 1e-9, sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (const Crossing& p : points) {
    const double off = (p.out - about.at(p.along)) / tolerance;
    if (std::abs(off) >= 1) continue;
    const double w = p.weight * (1 - off * off) * (1 - off * off);  // Tukey's biweight
    n += w, sx += w * p.along, sy += w * p.out, sxx += w * p.along * p.along, sxy += w * p.along * p.out;
  }
  const double det = n * sxx - sx * sx;
  if (det < 1e-6 * n * n) return {sy / n, 0};
  const double slope = (n * sxy - sx * sy) / det;
  return {(sy - slope * sx) / n, slope};
}

std::optional<cv::Point2d> meet(cv::Point2d a, cv::Point2d b, cv::Point2d c, cv::Point2d d) {
  const cv::Point2d r = b - a, s = d - c;
  const double cross = r.x * s.y - r.y * s.x;
  if (std::abs(cross) < 1e-9) return {};
  return a + ((c.x - a.x) * s.y - (c.y - a.y) * s.x) / cross * r;
}

std::vector<cv::Point> ends_of_rows(const cv::Mat& region) {
  std::vector<cv::Point> ends;
  for (int row = 0; row < region.rows; ++row) {
    const auto* line = region.ptr(row);
    int first = 0, last = region.cols - 1;
    while (first <= last && line[first] == 0) ++first;
    if (first > last) continue;
    while (line[last] == 0) --last;
    ends.emplace_back(first, row);
    if (last > first) ends.emplace_back(last, row);
  }
  return ends;
}

Quad quad_between(const std::array<std::array<cv::Point2d, 2>, 4>& lines) {
  Quad quad;
  for (int i = 0; i < 4; ++i) {
    const auto &before = lines[(i + 3) % 4], &after = lines[i];
    quad[i] = meet(before[0], before[1], after[0], after[1]).value_or(before[1]);
  }
  return quad;
}

}  // namespace farflung::photo
