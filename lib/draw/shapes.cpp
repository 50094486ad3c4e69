#include "draw/shapes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "colour/srgb.hpp"
#include "draw/radians.hpp"

namespace farflung::draw {
namespace {

double distance_to_edge(Vec p, Vec a, Vec b) {
  const Vec along = b - a;
  const double squared = along.x * along.x + along.y * along.y;
  const double t = squared > 0 ? std::clamp(((p.x - a.x) * along.x + (p.y - a.y) * along.y) / squared, 0.0, 1.0) : 0;
  return length(p - a - t * along);
}

double distance_to_edges(const Outline& outline, Vec p) {
  double least = INFINITY;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    least = std::min(least, distance_to_edge(p, outline[i], outline[(i + 1) % outline.size()]));
  }
  return least;
}

/// A box lies within the outline if its corners do and no corner of the outline lies inside the box.
bool box_within(const Outline& outline, const Box& box) {
  constexpr int kSteps = 6;
  for (int i = 0; i <= kSteps; ++i) {
    const double x = box.left + box.width * i / kSteps;
    const double y = box.top + box.height * i / kSteps;
    if (!holds(outline, {x, box.top}) || !holds(outline, {x, box.bottom()}) || !holds(outline, {box.left, y}) ||
        !holds(outline, {box.right(), y})) {
      return false;
    }
  }
  return true;
}

}  // namespace

double length(Vec v) { return std::hypot(v.x, v.y); }

Outline outline_of(const Box& box) {
  return {{box.left, box.top}, {box.right(), box.top}, {box.right(), box.bottom()}, {box.left, box.bottom()}};
}

Outline rounded(const Box& box, double radius) {
  constexpr int kSteps = 6;
  radius = std::min({radius, box.width / 2, box.height / 2});
  const Vec centres[] = {{box.right() - radius, box.top + radius},
                         {box.right() - radius, box.bottom() - radius},
                         {box.left + radius, box.bottom() - radius},
                         {box.left + radius, box.top + radius}};
  Outline result;
  for (int corner = 0; corner < 4; ++corner) {
    for (int step = 0; step <= kSteps; ++step) {
      const double angle = radians(-90 + 90.0 * corner + 90.0 * step / kSteps);
      result.push_back(centres[corner] + radius * Vec{std::cos(angle), std::sin(angle)});
    }
  }
  return result;
}

Outline circle(Vec centre, double radius) {
  constexpr int kSteps = 48;
  Outline result;
  for (int i = 0; i < kSteps; ++i) {
    const double angle = radians(360.0 * i / kSteps);
    result.push_back(centre + radius * Vec{std::cos(angle), std::sin(angle)});
  }
  return result;
}

Box box_of(const Outline& outline) {
  if (outline.empty()) return {};
  double left = INFINITY, top = INFINITY, right = -INFINITY, bottom = -INFINITY;
  for (Vec p : outline) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  return {left, top, right - left, bottom - top};
}

double area(const Outline& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec a = outline[i];
    const Vec b = outline[(i + 1) % outline.size()];
    twice += a.x * b.y - a.y * b.x;
  }
  return std::abs(twice) / 2;
}

bool holds(const Outline& outline, Vec point) {
  bool inside = false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec a = outline[i];
    const Vec b = outline[(i + 1) % outline.size()];
    if ((a.y > point.y) == (b.y > point.y)) continue;
    if (point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y)) inside = !inside;
  }
  return inside;
}

Vec inches(Point point) { return {point.x.inches(), point.y.inches()}; }

Outline inches(const Polygon& polygon) {
  Outline result;
  result.reserve(polygon.size());
  for (const Point& point : polygon) result.push_back(inches(point));
  return result;
}

Box fitted(double width, double height, const Box& room) {
  const double scale = std::min(room.width / width, room.height / height);
  const Vec middle = room.centre();
  return {middle.x - scale * width / 2, middle.y - scale * height / 2, scale * width, scale * height};
}

std::vector<Segment> hatched(const Outline& outline, double spacing, double degrees) {
  const Vec along = {std::cos(radians(degrees)), std::sin(radians(degrees))};
  const Vec across = {-along.y, along.x};
  const auto place = [](Vec axis, Vec p) { return axis.x * p.x + axis.y * p.y; };
  double low = INFINITY, high = -INFINITY;
  for (Vec p : outline) {
    low = std::min(low, place(across, p));
    high = std::max(high, place(across, p));
  }
  std::vector<Segment> result;
  const int lines = static_cast<int>(std::ceil((high - low) / spacing)) + 1;
  for (int i = 0; i < lines; ++i) {
    const double line = (std::floor(low / spacing) + 0.5 + i) * spacing;
    std::vector<double> crossings;
    for (std::size_t corner = 0; corner < outline.size(); ++corner) {
      const Vec a = outline[corner];
      const Vec b = outline[(corner + 1) % outline.size()];
      const double at_a = place(across, a);
      const double at_b = place(across, b);
      if ((at_a > line) == (at_b > line)) continue;
      crossings.push_back(place(along, a + ((line - at_a) / (at_b - at_a)) * (b - a)));
    }
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t k = 0; k + 1 < crossings.size(); k += 2) {
      result.push_back({crossings[k] * along + line * across, crossings[k + 1] * along + line * across});
    }
  }
  return result;
}

Spot spot_within(const Outline& outline, double width, double height) {
  constexpr int kPlaces = 24;
  const Box around = box_of(outline);
  Spot best{around.centre(), false};
  double most = -1;
  double nearest = 0;
  const double alike = 1e-6 * (around.width + around.height);
  for (int row = 0; row <= kPlaces; ++row) {
    for (int column = 0; column <= kPlaces; ++column) {
      const Vec centre = {around.left + around.width * column / kPlaces, around.top + around.height * row / kPlaces};
      if (!holds(outline, centre)) continue;
      const double room = distance_to_edges(outline, centre);
      const double off = length(centre - around.centre());
      if (room < most - alike || (room < most + alike && off >= nearest)) continue;
      if (!box_within(outline, {centre.x - width / 2, centre.y - height / 2, width, height})) continue;
      most = room;
      nearest = off;
      best = {centre, true};
    }
  }
  return best;
}

Colour colour_of(colour::Lab lab) {
  const colour::Srgb pixel = colour::srgb_from_lab(lab);
  return {pixel.r / 255.0, pixel.g / 255.0, pixel.b / 255.0, 1};
}

}  // namespace farflung::draw
