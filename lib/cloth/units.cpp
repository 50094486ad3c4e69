#include "cloth/units.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "cloth/extent.hpp"
#include "cloth/shape.hpp"

namespace farflung::cloth {
namespace {

Extent extent_of(const Polygon& polygon) {
  Extent extent;
  for (const Point& p : polygon) extent.take_in(p.x.inches(), p.y.inches());
  return extent;
}

/// Shapes do not depend on the allowance; any will do.
Shape shape_of(const block::Patch& patch) {
  return cut_shape(patch.polygon, Length::inches(0.25), Ruler::sixteenths, true).shape;
}

bool whole_seam(const Polygon& a, const Polygon& b, double seam) {
  return std::abs(meeting(a, b).seam.inches() - seam) <= 3 * kNear;
}

/// The half-square triangles within the box of patch `index` that share their whole long side with it.
std::vector<int> filling_triangles(const block::Pattern& pattern, int index, const std::vector<Shape>& shapes) {
  const Polygon& polygon = pattern.patches[index].polygon;
  const Extent box = extent_of(polygon);
  std::vector<int> found;
  for (int i = 0; i < static_cast<int>(pattern.patches.size()); ++i) {
    if (i == index || shapes[i] != Shape::half_square) continue;
    const Extent corner = extent_of(pattern.patches[i].polygon);
    if (box.holds(corner) && whole_seam(polygon, pattern.patches[i].polygon, corner.width() * std::sqrt(2.0))) {
      found.push_back(i);
    }
  }
  return found;
}

std::vector<Shape> shapes_of(const block::Pattern& pattern) {
  std::vector<Shape> shapes;
  for (const block::Patch& patch : pattern.patches) shapes.push_back(shape_of(patch));
  return shapes;
}

}  // namespace

std::vector<Goose> geese_of(const block::Pattern& pattern) {
  const std::vector<Shape> shapes = shapes_of(pattern);
  std::vector<Goose> geese;
  for (int i = 0; i < static_cast<int>(shapes.size()); ++i) {
    if (shapes[i] != Shape::quarter_square) continue;
    const std::vector<int> sky = filling_triangles(pattern, i, shapes);
    const Extent box = extent_of(pattern.patches[i].polygon);
    if (sky.size() == 2) {
      geese.push_back({i, sky[0], sky[1], Length::inches(std::max(box.width(), box.height()))});
    }
  }
  return geese;
}

std::vector<CorneredPatch> cornered_patches(const block::Pattern& pattern) {
  const std::vector<Shape> shapes = shapes_of(pattern);
  std::vector<CorneredPatch> found;
  std::set<int> taken;
  for (int i = 0; i < static_cast<int>(shapes.size()); ++i) {
    if (shapes[i] == Shape::quarter_square || shapes[i] == Shape::half_square) continue;
    std::vector<int> corners = filling_triangles(pattern, i, shapes);
    corners.erase(std::remove_if(corners.begin(), corners.end(), [&](int c) { return taken.count(c) > 0; }),
                  corners.end());
    const Extent box = extent_of(pattern.patches[i].polygon);
    double covered = area(pattern.patches[i].polygon);
    for (int corner : corners) covered += area(pattern.patches[corner].polygon);
    const double whole = box.width() * box.height();
    if (corners.empty() || std::abs(covered - whole) > 4 * kNear * (box.width() + box.height())) continue;
    taken.insert(corners.begin(), corners.end());
    found.push_back({i, corners, Length::inches(box.width()), Length::inches(box.height())});
  }
  return found;
}

bool on_steps(const block::Pattern& pattern, Length step) {
  const auto on = [&](Length length) {
    const double steps = length.inches() / step.inches();
    return std::abs(steps - std::round(steps)) * step.inches() <= kHair.inches();
  };
  for (const block::Patch& patch : pattern.patches) {
    for (std::size_t i = 0; i < patch.polygon.size(); ++i) {
      const Point edge = patch.polygon[(i + 1) % patch.polygon.size()] - patch.polygon[i];
      const bool across = std::abs(edge.y.inches()) <= kNear;
      const bool down = std::abs(edge.x.inches()) <= kNear;
      if ((across && !on(edge.x)) || (down && !on(edge.y))) return false;
    }
  }
  return true;
}

BlockSizes sizes_on_ruler(const block::Pattern& pattern, Length step, int count) {
  BlockSizes sizes;
  const double own = pattern.width.inches();
  const double one = step.inches();
  const auto fits = [&](double width) {
    const double factor = width / own;
    return on_steps(block::scaled(pattern, Length::inches(width), Length::inches(pattern.height.inches() * factor)),
                    step);
  };
  for (double steps = std::ceil(own / one - 1e-6) - 1; steps * one >= own / 2; --steps) {
    if (static_cast<int>(sizes.smaller.size()) >= count) break;
    if (fits(steps * one)) sizes.smaller.push_back(Length::inches(steps * one));
  }
  for (double steps = std::floor(own / one + 1e-6) + 1; steps * one <= own * 2; ++steps) {
    if (static_cast<int>(sizes.larger.size()) >= count) break;
    if (fits(steps * one)) sizes.larger.push_back(Length::inches(steps * one));
  }
  return sizes;
}

}  // namespace farflung::cloth
