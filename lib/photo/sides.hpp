// Quadrilaterals in a picture, their sides, and the lines that run along them. Internal to photo.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include <opencv2/core.hpp>

namespace farflung::photo {

using Quad = std::array<cv::Point2d, 4>;  ///< clockwise from the top left; pixel centres are whole numbers

/// Square pixels; below 0 where the corners run anticlockwise.
double area(const Quad& quad);
/// Whether the corners run clockwise and every one turns the same way; false too for three in a line.
bool convex(const Quad& quad);
/// Pixels, of its four sides.
double shortest_side(const Quad& quad);
double longest_side(const Quad& quad);
/// In the quad's own measure: the mean of its top and bottom, and of its left and right side.
cv::Size2d mean_sides(const Quad& quad);
/// Whether a place lies within a convex quadrilateral or on its rim.
bool contains(const Quad& quad, cv::Point2d place);

/// Of the smaller, how much two outlines share; 0 where one is not convex.
double overlap(const Quad& a, const Quad& b);

/// The middles of `count` by `count` parts of a quad, row by row, `rim` of its breadth and height left out on each
/// side.
std::vector<cv::Point2d> spread_over(const Quad& quad, int count, double rim = 0);

/// From quad[i] to quad[i + 1].
struct Side {
  cv::Point2d from, to, outward;
  /// Pixels, as all of this.
  double length = 0;
  cv::Point2d place(double along, double out) const { return from + along * (to - from) + out * outward; }
};
/// The side from corner `index`, 0..3; `outward` is a unit step away from the quadrilateral.
Side side_of(const Quad& quad, int index);

/// A place where an edge may cross a side: `along` 0..1, `out` pixels outward of it.
struct Crossing {
  double along = 0, out = 0, weight = 1;
};

/// out = at_start + slope * along, in the frame of a side.
struct Line {
  double at_start = 0, slope = 0;
  double at(double along) const { return at_start + slope * along; }
};

/// The line that most crossings agree on, by trying pairs of some `tries` of them at least `least_run` apart; none
/// where there are no two so far apart. Crossings in the order of their `along`.
std::optional<Line> agreed(const std::vector<Crossing>& points, double tolerance, std::size_t tries, double least_run);

/// The line of least squares through the crossings within `tolerance` of `about`; the farther off that
/// line, the less one counts (Tukey's biweight). Level where they do not say how it slopes.
Line least_squares_line(const std::vector<Crossing>& points, const Line& about, double tolerance);

/// Where the line through a and b meets the line through c and d; none where they are parallel.
std::optional<cv::Point2d> meet(cv::Point2d a, cv::Point2d b, cv::Point2d c, cv::Point2d d);

/// The quadrilateral between four lines, each through two points: corner i lies where line i - 1 meets line i, at the
/// end of line i - 1 where they are parallel.
Quad quad_between(const std::array<std::array<cv::Point2d, 2>, 4>& lines);

/// The first and the last pixel of each row of a CV_8U region: they have the same hull as all.
std::vector<cv::Point> ends_of_rows(const cv::Mat& region);

}  // namespace farflung::photo
