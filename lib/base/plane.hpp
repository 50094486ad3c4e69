// Points and polygons on the cloth: x runs right, y runs down, as seen from the front.
#pragma once

#include <vector>

#include "base/length.hpp"
#include "base/turn.hpp"

namespace farflung {

/// A place on the cloth, or a step from one place to another.
struct Point {
  Length x, y;

  friend constexpr bool operator==(Point, Point) = default;
  friend constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
};

/// Corners in order, either way round, the last joined to the first; sides do not cross.
using Polygon = std::vector<Point>;

/// A plain rectangle, its corners clockwise from the top left.
Polygon rectangle(Length left, Length top, Length width, Length height);

/// Square inches; positive where the corners run clockwise on the cloth.
double signed_area(const Polygon& polygon);
/// The same whichever way the corners run.
double area(const Polygon& polygon);

/// `point` of a width x height block, as it lies in the block's box once the block is turned.
Point turned(Point point, Length width, Length height, Turn turn);
Polygon turned(const Polygon& polygon, Length width, Length height, Turn turn);
Polygon shifted(const Polygon& polygon, Point by);

/// How two pieces of cloth that do not overlap meet.
struct Meeting {
  Length seam;         ///< the length of boundary they share; zero where they do not share a seam
  bool point = false;  ///< they share a point but no seam
};

/// Points nearer than this are one point: drawings and thirds of an inch are no more exact than that.
constexpr Length kSnap = Length::inches(0.001);

/// Seams are counted over every pair of edges that lie on one line and run opposite ways.
Meeting meeting(const Polygon& a, const Polygon& b);

}  // namespace farflung
