// What prints are drawn from: leaves, petals, stars, curls. All in inches; angles in radians, clockwise from along x.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "base/rng.hpp"
#include "simulator/canvas.hpp"

namespace farflung::simulator {

constexpr double kTau = 2 * CV_PI;  ///< once round, in radians

cv::Point2d toward(double angle);  ///< of length 1

Shape circle(cv::Point2d centre, double radius);
Shape ellipse(cv::Point2d centre, double along, double across, double angle);
Shape box(double left, double top, double width, double height);
/// Narrow at `base`, widest at `belly` (0..1) of its length; its tip is round.
Shape petal(cv::Point2d base, double angle, double length, double width, double belly = 0.62);
/// Pointed at both ends, its midrib bent sideways by `bend` of its length.
Shape leaf(cv::Point2d base, double angle, double length, double width, double bend = 0);
/// The midrib of such a leaf.
Shape rib(cv::Point2d base, double angle, double length, double bend);
/// A flower's outline of `petals` lobes; `depth` 0..1 says how deep they are cut.
Shape rosette(cv::Point2d centre, double radius, int petals, double angle, double depth);
Shape star(cv::Point2d centre, double outer, double inner, int points, double angle);
/// A pebble: a circle made uneven by `unevenness` of its radius.
Shape pebble(cv::Point2d centre, double radius, double unevenness, Rng& rng);
/// A path that curls in on itself by `turns`, from `start`, first running along `angle`.
Shape curl(cv::Point2d start, double angle, double length, double turns);
/// A smooth path through the places given (Catmull-Rom).
Shape smooth(const Shape& places, int steps = 10);
/// A cubic Bezier path.
Shape bezier(cv::Point2d a, cv::Point2d b, cv::Point2d c, cv::Point2d d, int steps = 24);

}  // namespace farflung::simulator
