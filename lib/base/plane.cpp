#include "base/plane.hpp"

#include <algorithm>
#include <cmath>

namespace farflung {
namespace {

struct Vec {
  double x = 0, y = 0;
};

Vec inches(Point p) { return {p.x.inches(), p.y.inches()}; }
Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y}; }
double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y; }
double cross(Vec a, Vec b) { return a.x * b.y - a.y * b.x; }

/// The length that edges a0-a1 and b0-b1 share, inches; 0 where they are not on one line within the snap.
double shared_edge(Vec a0, Vec a1, Vec b0, Vec b1) {
  const Vec along = a1 - a0;
  const double length = std::hypot(along.x, along.y);
  if (length <= kSnap.inches()) return 0;
  const Vec unit{along.x / length, along.y / length};
  if (std::abs(cross(unit, b0 - a0)) > kSnap.inches() || std::abs(cross(unit, b1 - a0)) > kSnap.inches()) return 0;
  const double t0 = dot(unit, b0 - a0);
  const double t1 = dot(unit, b1 - a0);
  return std::min(length, std::max(t0, t1)) - std::max(0.0, std::min(t0, t1));
}

/// The distance from p to the segment a0-a1, inches.
double distance(Vec p, Vec a0, Vec a1) {
  const Vec along = a1 - a0;
  const double squared = dot(along, along);
  const double t = squared > 0 ? std::clamp(dot(p - a0, along) / squared, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a0.x - t * along.x, p.y - a0.y - t * along.y);
}

bool corner_on_boundary(const Polygon& corners, const Polygon& of) {
  for (const Point& corner : corners) {
    for (std::size_t i = 0; i < of.size(); ++i) {
      if (distance(inches(corner), inches(of[i]), inches(of[(i + 1) % of.size()])) <= kSnap.inches()) return true;
    }
  }
  return false;
}

}  // namespace

Polygon rectangle(Length left, Length top, Length width, Length height) {
  return {{left, top}, {left + width, top}, {left + width, top + height}, {left, top + height}};
}

double signed_area(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    twice += cross(inches(polygon[i]), inches(polygon[(i + 1) % polygon.size()]));
  }
  return twice / 2;
}

double area(const Polygon& polygon) { return std::abs(signed_area(polygon)); }

Point turned(Point point, Length width, Length height, Turn turn) {
  switch (turn.quarters()) {
    case 1:
      return {height - point.y, point.x};
    case 2:
      return {width - point.x, height - point.y};
    case 3:
      return {point.y, width - point.x};
    default:
      return point;
  }
}

Polygon turned(const Polygon& polygon, Length width, Length height, Turn turn) {
  Polygon result;
  result.reserve(polygon.size());
  for (const Point& point : polygon) result.push_back(turned(point, width, height, turn));
  return result;
}

Polygon shifted(const Polygon& polygon, Point by) {
  Polygon result;
  result.reserve(polygon.size());
  for (const Point& point : polygon) result.push_back(point + by);
  return result;
}

Meeting meeting(const Polygon& a, const Polygon& b) {
  double shared = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (std::size_t j = 0; j < b.size(); ++j) {
      const double along =
          shared_edge(inches(a[i]), inches(a[(i + 1) % a.size()]), inches(b[j]), inches(b[(j + 1) % b.size()]));
      if (along > kSnap.inches()) shared += along;
    }
  }
  if (shared > 0) return {Length::inches(shared), false};
  return {Length(), corner_on_boundary(a, b) || corner_on_boundary(b, a)};
}

}  // namespace farflung
