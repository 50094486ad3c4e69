#include "score/seam_ends.hpp"

#include <algorithm>
#include <cmath>

namespace farflung::score {
namespace {

using block::kNone;

struct Vec {
  double x = 0, y = 0;
};

Vec inches(Point p) { return {p.x.inches(), p.y.inches()}; }
Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y}; }
Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y}; }
double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y; }
double cross(Vec a, Vec b) { return a.x * b.y - a.y * b.x; }
double length(Vec a) { return std::hypot(a.x, a.y); }

/// To the left of someone who looks along `v`, on cloth where y runs down.
Vec left_of(Vec v) { return {v.y, -v.x}; }

Vec centroid(const Polygon& polygon) {
  Vec sum;
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec p = inches(polygon[i]);
    const Vec q = inches(polygon[(i + 1) % polygon.size()]);
    const double each = cross(p, q);
    sum = {sum.x + each * (p.x + q.x), sum.y + each * (p.y + q.y)};
    twice += each;
  }
  return {sum.x / (3 * twice), sum.y / (3 * twice)};
}

struct Segment {
  Vec from, to;
};

/// The stretches of boundary that two patches share.
std::vector<Segment> shared_boundary(const Polygon& a, const Polygon& b) {
  const double snap = kSnap.inches();
  std::vector<Segment> shared;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Vec from = inches(a[i]);
    const Vec along = inches(a[(i + 1) % a.size()]) - from;
    const double whole = length(along);
    if (whole <= snap) continue;
    const Vec unit{along.x / whole, along.y / whole};
    for (std::size_t j = 0; j < b.size(); ++j) {
      const Vec p = inches(b[j]) - from;
      const Vec q = inches(b[(j + 1) % b.size()]) - from;
      if (std::abs(cross(unit, p)) > snap || std::abs(cross(unit, q)) > snap) continue;
      const double low = std::max(0.0, std::min(dot(unit, p), dot(unit, q)));
      const double high = std::min(whole, std::max(dot(unit, p), dot(unit, q)));
      if (high - low <= snap) continue;
      shared.push_back({from + Vec{low * unit.x, low * unit.y}, from + Vec{high * unit.x, high * unit.y}});
    }
  }
  return shared;
}

/// Which patches each step's units hold.
class Assembly {
 public:
  explicit Assembly(const block::Pattern& pattern) {
    for (const block::PiecingStep& step : pattern.piecing) {
      std::vector<int> made;
      for (const block::Unit& unit : step.join) {
        const std::vector<int> patches = patches_of(unit);
        made.insert(made.end(), patches.begin(), patches.end());
      }
      made_.push_back(std::move(made));
    }
  }

  std::vector<int> patches_of(const block::Unit& unit) const {
    return unit.kind == block::Unit::Kind::patch ? std::vector<int>{unit.index} : made_[unit.index];
  }

  bool holds(const block::Unit& unit, int patch) const {
    const std::vector<int> patches = patches_of(unit);
    return std::find(patches.begin(), patches.end(), patch) != patches.end();
  }

  /// The step that sews two patches together, kNone where the steps never do.
  int joined_in(int a, int b) const {
    for (int k = 0; k < static_cast<int>(made_.size()); ++k) {
      const auto has = [&](int patch) { return std::find(made_[k].begin(), made_[k].end(), patch) != made_[k].end(); };
      if (has(a) && has(b)) return k;
    }
    return kNone;
  }

 private:
  std::vector<std::vector<int>> made_;
};

/// The edges of the block on which a point lies.
std::vector<int> edges_at(const block::Pattern& pattern, Vec p) {
  const double snap = kSnap.inches();
  std::vector<int> edges;
  if (p.y <= snap) edges.push_back(0);
  if (p.x >= pattern.width.inches() - snap) edges.push_back(1);
  if (p.y >= pattern.height.inches() - snap) edges.push_back(2);
  if (p.x <= snap) edges.push_back(3);
  return edges;
}

/// Which way the allowance of a seam between patches a and b lies at `end`, the seam's other end being `other`.
SeamEnd::Way way_at(const block::Pattern& pattern, const Assembly& assembly, int a, int b, Vec end, Vec other) {
  const int step = assembly.joined_in(a, b);
  if (step == kNone) return SeamEnd::Way::open;
  const block::Pressing& press = pattern.piecing[step].press;
  if (press.kind == block::Pressing::Kind::open) return SeamEnd::Way::open;
  // Spun: the allowances run round the crossing clockwise, which from any edge lie to the left.
  if (press.kind == block::Pressing::Kind::spun) return SeamEnd::Way::left;
  const bool a_side = assembly.holds(press.toward, a);
  if (a_side == assembly.holds(press.toward, b)) return SeamEnd::Way::open;  // a seam between two other units
  const Vec aside = centroid(pattern.patches[a_side ? a : b].polygon) - end;
  return dot(aside, left_of(other - end)) > 0 ? SeamEnd::Way::left : SeamEnd::Way::right;
}

/// The inward normal of an edge of a block as it lies on the top.
Vec inward(const setting::Plan& plan, const block::Pattern& pattern, int cell, Turn turn, int edge) {
  const Length w = pattern.width;
  const Length h = pattern.height;
  const Length none;
  const Point corners[] = {{none, none}, {w, none}, {w, h}, {none, h}};
  const Polygon side = plan.top_from_block({corners[edge], corners[(edge + 1) % 4]}, cell, turn);
  const Vec along = inches(side[1]) - inches(side[0]);  // clockwise round the block: inside lies to the right
  return {-along.y / length(along), along.x / length(along)};
}

/// The ends of a block as it lies.
struct LaidEnd {
  Point at;
  Vec inward;
  SeamEnd::Way way;
};

std::vector<LaidEnd> laid_ends(const setting::Plan& plan, const LaidPattern& laid) {
  std::vector<LaidEnd> ends;
  for (const SeamEnd& end : laid.ends) {
    ends.push_back({plan.top_from_block({end.at}, laid.cell, laid.turn).front(),
                    inward(plan, laid.pattern, laid.cell, laid.turn, end.edge), end.way});
  }
  return ends;
}

Polygon outline(const setting::Plan& plan, int cell) {
  return plan.top_from_block(rectangle(Length(), Length(), plan.block_width, plan.block_height), cell, Turn());
}

}  // namespace

std::vector<SeamEnd> seam_ends(const block::Pattern& pattern) {
  std::vector<SeamEnd> ends;
  if (pattern.piecing.empty()) return ends;
  const Assembly assembly(pattern);
  const int patches = static_cast<int>(pattern.patches.size());
  for (int a = 0; a < patches; ++a) {
    for (int b = a + 1; b < patches; ++b) {
      for (const Segment& seam : shared_boundary(pattern.patches[a].polygon, pattern.patches[b].polygon)) {
        for (const bool at_from : {true, false}) {
          const Vec end = at_from ? seam.from : seam.to;
          const SeamEnd::Way way = way_at(pattern, assembly, a, b, end, at_from ? seam.to : seam.from);
          for (const int edge : edges_at(pattern, end)) {
            ends.push_back({{Length::inches(end.x), Length::inches(end.y)}, edge, way});
          }
        }
      }
    }
  }
  return ends;
}

std::vector<MetEnds> met_ends(const setting::Plan& plan, const LaidPattern& a, const LaidPattern& b) {
  std::vector<MetEnds> met;
  if (a.ends.empty() || b.ends.empty()) return met;
  if (meeting(outline(plan, a.cell), outline(plan, b.cell)).seam <= Length()) return met;
  const std::vector<LaidEnd> ends_b = laid_ends(plan, b);
  const Vec apart = inches(plan.cells[b.cell].centre) - inches(plan.cells[a.cell].centre);
  for (const LaidEnd& end_a : laid_ends(plan, a)) {
    if (dot(apart, end_a.inward) >= 0) continue;  // an edge that looks away
    for (const LaidEnd& end_b : ends_b) {
      if (length(inches(end_a.at) - inches(end_b.at)) > 2 * kSnap.inches()) continue;
      if (dot(end_a.inward, end_b.inward) <= -0.99) met.push_back({end_a.at, end_a.way, end_b.way});
    }
  }
  return met;
}

}  // namespace farflung::score
