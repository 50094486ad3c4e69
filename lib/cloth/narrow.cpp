#include "cloth/narrow.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "cloth/extent.hpp"
#include "cloth/ruler.hpp"

namespace farflung::cloth {
namespace {

/// The least distance between two parallel lines that hold a polygon between them, one of them along a side.
Length width_across(const Polygon& polygon) {
  double least = 1e300;
  for (std::size_t i = 0, before = polygon.size() - 1; i < polygon.size(); before = i++) {
    const double x = polygon[before].x.inches(), y = polygon[before].y.inches();
    const double along_x = polygon[i].x.inches() - x, along_y = polygon[i].y.inches() - y;
    const double side = std::hypot(along_x, along_y);
    if (side < kNear) continue;
    double low = 0, high = 0;
    for (const Point& point : polygon) {
      const double off = (along_x * (point.y.inches() - y) - along_y * (point.x.inches() - x)) / side;
      low = std::min(low, off), high = std::max(high, off);
    }
    least = std::min(least, high - low);
  }
  return in(least);
}

/// What is narrowest of all that is sewn.
struct Narrowest {
  std::string what;
  Length width;
};

std::optional<Narrowest> narrowest_of(const quilt::Quilt& quilt) {
  std::optional<Narrowest> narrowest;
  const auto take = [&](const std::string& what, Length width) {
    if (!narrowest || width < narrowest->width) narrowest = {what, width};
  };
  for (const block::Pattern& pattern : quilt.patterns) {
    for (const block::Patch& patch : pattern.patches) {
      take("the narrowest patch of " + block::name_of(pattern), width_across(patch.polygon));
    }
  }
  if (quilt.setting.sashing) take("the sashing", quilt.setting.sashing->width);
  for (const setting::Border& border : quilt.setting.borders) take("the narrowest border", border.width);
  return narrowest;
}

}  // namespace

std::string narrow_said(const quilt::Quilt& quilt) {
  const std::optional<Narrowest> narrowest = narrowest_of(quilt);
  if (!narrowest || narrowest->width > quilt.seam_allowance - kSnap) return "";
  const Ruler ruler = ruler_for(quilt.units, true);
  return "The seam allowance of " + said(quilt.seam_allowance, ruler) + " is wider than " + narrowest->what + ", " +
         said(narrowest->width, ruler) + ": pressed to one side it reaches across into the next seam.";
}

}  // namespace farflung::cloth
