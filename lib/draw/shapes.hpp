// What drawings are made of: points, outlines, boxes, colours. x runs right, y runs down.
#pragma once

#include <vector>

#include "base/plane.hpp"
#include "colour/lab.hpp"

namespace farflung::draw {

/// A point, or a step from one point to another, in the units of its display.
struct Vec {
  double x = 0, y = 0;

  friend constexpr bool operator==(Vec, Vec) = default;
  friend constexpr Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y}; }
  friend constexpr Vec operator*(double k, Vec a) { return {k * a.x, k * a.y}; }
};

/// In the units of its display.
double length(Vec v);

/// A closed shape; the last corner joins the first.
using Outline = std::vector<Vec>;

/// An upright rectangle, in the units of its display.
struct Box {
  double left = 0, top = 0, width = 0, height = 0;

  constexpr double right() const { return left + width; }
  constexpr double bottom() const { return top + height; }
  constexpr Vec centre() const { return {left + width / 2, top + height / 2}; }
  /// Smaller by `by` on every side; larger where it is negative.
  constexpr Box inset(double by) const { return {left + by, top + by, width - 2 * by, height - 2 * by}; }
  constexpr bool holds(const Box& inner, double slack = 1e-6) const {
    return inner.left >= left - slack && inner.top >= top - slack && inner.right() <= right() + slack &&
           inner.bottom() <= bottom() + slack;
  }
  constexpr bool overlaps(const Box& other, double slack = 1e-6) const {
    return left < other.right() - slack && other.left < right() - slack && top < other.bottom() - slack &&
           other.top < bottom() - slack;
  }
};

/// Corners clockwise. A rounded box has seven at each of its own, the radius at most half of its shorter side; a circle
/// has 48.
Outline outline_of(const Box& box);
Outline rounded(const Box& box, double radius);
Outline circle(Vec centre, double radius);
/// Of an outline that runs either way round: the upright box about it (all 0 of an empty one), its area, and whether a
/// point lies within.
Box box_of(const Outline& outline);
double area(const Outline& outline);
bool holds(const Outline& outline, Vec point);

/// Cloth in inches.
Vec inches(Point point);
Outline inches(const Polygon& polygon);

/// The widest box of this proportion (width / height) that lies centred in `room`.
Box fitted(double width, double height, const Box& room);

/// A straight piece of a line.
struct Segment {
  Vec from, to;
};

/// Parallel lines `spacing` apart that fill an outline, at `degrees` clockwise from the horizontal.
std::vector<Segment> hatched(const Outline& outline, double spacing, double degrees);

/// The centre of a box of this size that lies within the outline, as far from its edges as can be found on a grid of
/// 24 x 24 places and then as near its middle; `fits` is false where none does.
struct Spot {
  Vec centre;
  bool fits = false;
};
Spot spot_within(const Outline& outline, double width, double height);

/// sRGB, each 0..1; alpha 0 is clear.
struct Colour {
  double red = 0, green = 0, blue = 0, alpha = 1;
  friend constexpr bool operator==(const Colour&, const Colour&) = default;
};

/// By the nearest pixel of 8 bits; what the screen has not is cut off.
Colour colour_of(colour::Lab lab);
/// `level` is encoded sRGB, not light: 0 black, 1 white.
constexpr Colour grey_level(double level, double alpha = 1) { return {level, level, level, alpha}; }

constexpr Colour kWhite = grey_level(1);
constexpr Colour kInk = {0.10, 0.10, 0.12, 1};    ///< words
constexpr Colour kFaint = {0.42, 0.42, 0.45, 1};  ///< words of second rank; 5.5 : 1 on white
constexpr Colour kHair = {0.72, 0.72, 0.74, 1};   ///< hairlines

}  // namespace farflung::draw
