#include "sheet/templates.hpp"

#include <algorithm>
#include <cmath>

#include "cloth/shape.hpp"

namespace farflung::sheet {
namespace {

/// Clockwise, its box's corner at the origin, in thousandths of an inch, the least corner first: equal shapes are
/// equal.
using Form = std::vector<std::pair<long, long>>;

Polygon clockwise(Polygon polygon) {
  if (signed_area(polygon) < 0) std::reverse(polygon.begin(), polygon.end());
  return polygon;
}

Polygon at_origin(const Polygon& polygon) {
  Point least = polygon.front();
  for (const Point& p : polygon) least = {std::min(least.x, p.x), std::min(least.y, p.y)};
  return shifted(polygon, Point{} - least);
}

Form form_of(const Polygon& polygon) {
  Form form;
  for (const Point& p : at_origin(clockwise(polygon))) {
    form.emplace_back(std::lround(1000 * p.x.inches()), std::lround(1000 * p.y.inches()));
  }
  std::rotate(form.begin(), std::min_element(form.begin(), form.end()), form.end());
  return form;
}

Polygon turned_over(Polygon polygon) {
  for (Point& p : polygon) p.x = Length() - p.x;
  return polygon;
}

/// Whether some quarter turn of `polygon` is `form`.
bool turns_into(const Polygon& polygon, const Form& form) {
  for (int quarters = 0; quarters < Turn::kCount; ++quarters) {
    if (form_of(turned(polygon, Length(), Length(), Turn::quarters(quarters))) == form) return true;
  }
  return false;
}

bool by_ruler(const Polygon& polygon, Length seam, quilt::Units units) {
  const cloth::CutShape shape = cloth::cut_shape(polygon, seam, cloth::ruler_for(units));
  return shape.shape == cloth::Shape::square || shape.shape == cloth::Shape::rectangle;
}

void add_patch(std::vector<Template>& all, std::size_t first, const quilt::Quilt& quilt, int pattern,
               const block::Patch& patch) {
  const std::string& slot = quilt.patterns[pattern].slots[patch.slot].name;
  const auto note = [&](Template& found, int Template::*which) {
    ++(found.*which);
    if (std::find(found.slots.begin(), found.slots.end(), slot) == found.slots.end()) found.slots.push_back(slot);
  };
  for (std::size_t i = first; i < all.size(); ++i) {
    const Form form = form_of(all[i].sewing);
    if (turns_into(patch.polygon, form)) return note(all[i], &Template::count);
    if (turns_into(turned_over(patch.polygon), form)) return note(all[i], &Template::reversed);
  }
  Template fresh;
  fresh.pattern = pattern;
  fresh.name = "T" + std::to_string(all.size() + 1);
  fresh.sewing = at_origin(clockwise(patch.polygon));
  fresh.cutting = cloth::with_allowance(fresh.sewing, quilt.seam_allowance);
  note(fresh, &Template::count);
  all.push_back(std::move(fresh));
}

}  // namespace

std::vector<Template> templates_of(const quilt::Quilt& quilt) {
  std::vector<Template> all;
  for (std::size_t pattern = 0; pattern < quilt.patterns.size(); ++pattern) {
    const int index = static_cast<int>(pattern);
    const bool used = std::any_of(quilt.blocks.begin(), quilt.blocks.end(),
                                  [&](const block::Block& block) { return block.pattern == index; });
    if (!used) continue;
    const std::size_t first = all.size();
    for (const block::Patch& patch : quilt.patterns[pattern].patches) {
      if (!by_ruler(patch.polygon, quilt.seam_allowance, quilt.units)) add_patch(all, first, quilt, index, patch);
    }
  }
  return all;
}

}  // namespace farflung::sheet
