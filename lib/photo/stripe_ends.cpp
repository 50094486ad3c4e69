#include "photo/stripe_ends.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "photo/region.hpp"

namespace farflung::photo {
namespace {

constexpr int kMostEdges = 8;        ///< of the hull: four sides and four corners cut off
constexpr double kLeastBorne = 0.3;  ///< of a side, at which stripes end
constexpr double kWholly = 0.9;      ///< of a side that is no row of ends
constexpr double kMostBorne = 0.85;  ///< of a line across a missing corner: more is an edge of something
constexpr double kShort = 0.03;      ///< of the way round: a line so short is only a corner that is a little round
constexpr int kLeastCutOff = 2;      ///< corners: a block of cloths may well be short of one
constexpr double kLeastFilled = 0.7, kMostFilled = 0.99;  ///< of the quadrilateral, that the hull covers
constexpr int kNear = 3;                                  ///< pixels

/// The hull's corners, not more than kMostEdges of them; fewer than five where it is a quadrilateral.
std::vector<cv::Point> hull_of(const cv::Mat& region) {
  std::vector<cv::Point> hull, corners;
  cv::convexHull(ends_of_rows(region), hull, false);  // clockwise where y runs down
  const double around = cv::arcLength(hull, true);
  for (double share = 0.004; share < 0.05; share *= 1.3) {
    cv::approxPolyDP(hull, corners, share * around, true);
    if (corners.size() <= kMostEdges) break;
  }
  return corners;
}

/// What a line meets of what is marked.
struct Met {
  double share = 0;  ///< of its length
  int runs = 0;      ///< how often it comes upon it
};

Met met(const cv::Mat& marked, cv::Point2d from, cv::Point2d to) {
  constexpr int kSteps = 80;
  Met line;
  bool before = false;
  for (int i = 0; i < kSteps; ++i) {
    const cv::Point2d p = from + (to - from) * ((i + 0.5) / kSteps);
    const int column = cvRound(p.x), row = cvRound(p.y);
    const bool here =
        row >= 0 && column >= 0 && row < marked.rows && column < marked.cols && marked.ptr(row)[column] != 0;
    line.share += here ? 1.0 / kSteps : 0;
    line.runs += here && !before;
    before = here;
  }
  return line;
}

/// Whether the same stripes may end at both of two opposite sides.
bool may_be_ends_of_the_same(const Met& one, const Met& other) {
  constexpr double kAlike = 0.25;
  if (one.runs < 2 || other.runs < 2) return true;
  return std::abs(one.runs - other.runs) < 2 && std::abs(one.share - other.share) < kAlike;
}

/// How much the least borne side of a quad is borne out by what is `near` cloth; none where not all of them are, by
/// the ends of several stripes or all along, or where fewer than two are by stripes.
std::optional<double> borne_out(const Quad& quad, const cv::Mat& near) {
  std::array<Met, 4> sides;
  int by_stripes = 0;
  for (std::size_t k = 0; k < 4; ++k) {
    sides[k] = met(near, quad[k], quad[(k + 1) % 4]);
    if (sides[k].share < (sides[k].runs > 1 ? kLeastBorne : kWholly)) return {};
    by_stripes += sides[k].runs > 1;
  }
  if (by_stripes < 2) return {};
  if (!may_be_ends_of_the_same(sides[0], sides[2]) || !may_be_ends_of_the_same(sides[1], sides[3])) return {};
  return std::min_element(sides.begin(), sides.end(), [](const Met& a, const Met& b) { return a.share < b.share; })
      ->share;
}

/// Of a region's hull.
struct Edge {
  cv::Point2d from, to;
  bool rounds = false;    ///< a corner that is a little round, and no more
  bool cuts_off = false;  ///< a corner that is missing
};

std::vector<Edge> edges_of(const std::vector<cv::Point>& hull, const cv::Mat& near) {
  const double around = cv::arcLength(hull, true);
  std::vector<Edge> edges;
  for (std::size_t i = 0; i < hull.size(); ++i) {
    Edge edge{hull[i], hull[(i + 1) % hull.size()]};
    edge.rounds = cv::norm(edge.to - edge.from) < kShort * around;
    edge.cuts_off = !edge.rounds && met(near, edge.from, edge.to).share < kMostBorne;
    edges.push_back(edge);
  }
  return edges;
}

/// The quadrilateral along those four edges that `mask` chooses; none where it chooses another number, or where what is
/// left does not cut off several corners.
std::optional<Quad> quad_along(const std::vector<Edge>& edges, unsigned mask) {
  std::vector<Edge> sides;
  int cut_off = 0;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    if ((mask >> i & 1U) != 0) {
      sides.push_back(edges[i]);
    } else if (edges[i].cuts_off) {
      ++cut_off;
    } else if (!edges[i].rounds) {
      return {};
    }
  }
  if (sides.size() != 4 || cut_off < kLeastCutOff) return {};
  Quad quad;
  for (std::size_t k = 0; k < 4; ++k) {
    const Edge &before = sides[(k + 3) % 4], &after = sides[k];
    const auto corner = meet(before.from, before.to, after.from, after.to);
    if (!corner) return {};
    quad[k] = *corner;
  }
  if (!convex(quad)) return {};
  return quad;
}

}  // namespace

std::optional<Quad> quad_by_stripe_ends(const cv::Mat& region) {
  const std::vector<cv::Point> hull = hull_of(region);
  if (hull.size() < 5 || hull.size() > kMostEdges) return {};
  cv::Mat near;
  cv::dilate(region, near, cv::getStructuringElement(cv::MORPH_RECT, {2 * kNear + 1, 2 * kNear + 1}));
  const std::vector<Edge> edges = edges_of(hull, near);
  const double hull_area = cv::contourArea(hull);
  std::optional<Quad> best;
  double most = 0;
  for (unsigned mask = 0; mask < 1U << edges.size(); ++mask) {
    const auto quad = quad_along(edges, mask);
    if (!quad || hull_area < kLeastFilled * area(*quad) || hull_area > kMostFilled * area(*quad)) continue;
    if (const auto least = borne_out(*quad, near); least && *least > most) most = *least, best = quad;
  }
  if (!best) return {};
  return from_top_left(*best);
}

}  // namespace farflung::photo
