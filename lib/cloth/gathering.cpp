#include "cloth/gathering.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

namespace farflung::cloth {
namespace {

bool same_outline(const Polygon& a, const Polygon& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t shift = 0; shift < a.size(); ++shift) {
    bool same = true;
    for (std::size_t i = 0; i < a.size() && same; ++i) {
      const Point apart = a[i] - b[(i + shift) % b.size()];
      same = std::abs(apart.x.inches()) <= 2 * kSnap.inches() && std::abs(apart.y.inches()) <= 2 * kSnap.inches();
    }
    if (same) return true;
  }
  return false;
}

/// The same template in one of the quarter turns.
bool same_template(const CutShape& a, const CutShape& b, bool turnable) {
  for (int quarters = 0; quarters < (turnable ? 4 : 1); ++quarters) {
    const Turn turn = Turn::quarters(quarters);
    const Length width = Length::inches(b.width.exact.inches());
    if (same_outline(a.cut_line, turned(b.cut_line, width, b.height.exact, turn))) return true;
  }
  return false;
}

bool cut_alike(const CutShape& a, const CutShape& b, bool turnable) {
  if (a.shape != b.shape) return false;
  if (is_triangle(a) && !turnable && a.facing != b.facing) return false;
  if (a.shape == Shape::odd) return same_template(a, b, turnable);
  const auto same = [](const Measured& first, const Measured& second) {
    return first.cut == second.cut && std::abs((first.exact - second.exact).inches()) <= kHair.inches();
  };
  return same(a.width, b.width) && same(a.height, b.height);
}

/// Squares that give so many triangles. A print that must stand upright needs each triangle in its own facing: the two
/// of a square cut once face opposite ways, the four of a square cut twice all differ.
int squares_for(Shape shape, bool turnable, const std::array<int, 4>& facing) {
  const int sum = facing[0] + facing[1] + facing[2] + facing[3];
  if (shape == Shape::half_square) {
    return turnable ? (sum + 1) / 2 : std::max(facing[0], facing[2]) + std::max(facing[1], facing[3]);
  }
  return turnable ? (sum + 3) / 4 : *std::max_element(facing.begin(), facing.end());
}

void add_note(CutLine& line, const std::string& more) { line.note += line.note.empty() ? more : "; " + more; }

}  // namespace

bool is_triangle(const CutShape& shape) {
  return shape.shape == Shape::half_square || shape.shape == Shape::quarter_square;
}

CutShape laid_long(CutShape shape, Length seam) {
  if (shape.shape != Shape::rectangle || shape.width.exact >= shape.height.exact) return shape;
  std::swap(shape.width, shape.height);
  std::swap(shape.finished_width, shape.finished_height);
  for (Polygon* polygon : {&shape.finished, &shape.cut_line}) {
    for (Point& p : *polygon) std::swap(p.x, p.y);
    std::reverse(polygon->begin(), polygon->end());
  }
  shape.working = rectangle_working(shape, seam);
  return shape;
}

void Gathering::add(Part part, int count) {
  if (part.turnable) part.shape = laid_long(part.shape, seam_);
  for (Part& known : parts_) {
    if (known.print != part.print || known.part != part.part || known.pattern != part.pattern ||
        known.turnable != part.turnable || known.note != part.note ||
        !cut_alike(known.shape, part.shape, part.turnable)) {
      continue;
    }
    known.count += count;
    return;
  }
  part.count = count;
  parts_.push_back(std::move(part));
}

std::vector<CutLine> Gathering::lines() const {
  std::vector<Part> sorted = parts_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Part& a, const Part& b) {
    return std::make_tuple(a.print, a.pattern == kNone, a.pattern) <
           std::make_tuple(b.print, b.pattern == kNone, b.pattern);
  });
  using Key = std::tuple<int, Shape, Length, bool>;
  std::map<Key, std::array<int, 4>> met;  // triangles of one print and size so far, by facing
  std::vector<CutLine> lines;
  for (const Part& part : sorted) {
    CutLine line{part.print, part.part, part.pattern, part.shape, part.count, part.count, part.turnable, part.note};
    if (is_triangle(part.shape)) {
      auto& facing = met[{part.print, part.shape.shape, part.shape.width.cut, part.turnable}];
      const int before = squares_for(part.shape.shape, part.turnable, facing);
      facing[part.turnable ? 0 : part.shape.facing] += part.count;
      line.rectangles = squares_for(part.shape.shape, part.turnable, facing) - before;
      if (line.rectangles * part.shape.per_rectangle < part.count) add_note(line, "the rest come from squares above");
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace farflung::cloth
