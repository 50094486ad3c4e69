#include "score/nesting.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>

#include "score/press_choice.hpp"
#include "setting/contacts.hpp"

namespace farflung::score {
namespace {

using block::kNone;
using Press = block::Block::Press;

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
  explicit Assembly(const block::Pattern& pattern) : pattern_(pattern) {
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
  const block::Pattern& pattern_;
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

std::vector<LaidEnd> laid_ends(const setting::Plan& plan, const block::Pattern& pattern,
                               const std::vector<SeamEnd>& ends, int cell, Turn turn) {
  std::vector<LaidEnd> laid;
  for (const SeamEnd& end : ends) {
    laid.push_back(
        {plan.top_from_block({end.at}, cell, turn).front(), inward(plan, pattern, cell, turn, end.edge), end.way});
  }
  return laid;
}

std::vector<EndMeeting> end_meetings(const quilt::Quilt& quilt) {
  const setting::Plan plan = quilt::plan_of(quilt);
  const setting::Contacts contacts(plan, quilt.patterns);
  std::vector<std::vector<SeamEnd>> ends;
  for (const block::Pattern& pattern : quilt.patterns) ends.push_back(seam_ends(pattern));
  const auto laid = [&](int cell) {
    const int pattern = quilt.blocks[quilt.layout.block[cell]].pattern;
    return laid_ends(plan, quilt.patterns[pattern], ends[pattern], cell, quilt.layout.turn[cell]);
  };
  std::vector<EndMeeting> meetings;
  for (const setting::CellPair& pair : contacts.pairs()) {
    if (quilt.layout.block[pair.first] == kNone || quilt.layout.block[pair.second] == kNone) continue;
    const std::vector<LaidEnd> second = laid(pair.second);
    for (const LaidEnd& a : laid(pair.first)) {
      for (const LaidEnd& b : second) {
        if (length(inches(a.at) - inches(b.at)) > 2 * kSnap.inches() || dot(a.inward, b.inward) > -0.99) continue;
        // Edges that face each other, not two that lie on one line with a block between.
        if (dot(inches(plan.cells[pair.second].centre) - inches(plan.cells[pair.first].centre), a.inward) >= 0)
          continue;
        meetings.push_back({pair.first, pair.second, a.at, a.way, b.way});
      }
    }
  }
  return meetings;
}

bool nests(const EndMeeting& meeting, Press a, Press b) {
  return (meeting.way_a == meeting.way_b) == (a == b);  // pressed the other way, left and right change places
}

bool is_open(const EndMeeting& meeting) {
  return meeting.way_a == SeamEnd::Way::open || meeting.way_b == SeamEnd::Way::open;
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

Nesting nesting_of(const quilt::Quilt& quilt) {
  Nesting nesting;
  nesting.meetings = end_meetings(quilt);
  std::vector<PressWish> wishes;
  for (const EndMeeting& meeting : nesting.meetings) {
    if (is_open(meeting)) {
      ++nesting.open;
      continue;
    }
    wishes.push_back(
        {quilt.layout.block[meeting.cell_a], quilt.layout.block[meeting.cell_b], meeting.way_a != meeting.way_b});
  }
  std::vector<std::optional<bool>> pressed;  // true: the other way
  for (const block::Block& block : quilt.blocks) {
    pressed.push_back(block.press ? std::optional<bool>(*block.press == Press::other) : std::nullopt);
  }
  const PressChoice choice = choose_press(wishes, pressed);
  nesting.exact = choice.exact;
  std::vector<int> cell_of(quilt.blocks.size(), kNone);
  for (int cell = 0; cell < static_cast<int>(quilt.layout.block.size()); ++cell) {
    if (quilt.layout.block[cell] != kNone) cell_of[quilt.layout.block[cell]] = cell;
  }
  for (const std::vector<int>& ring : choice.odd_rings) {
    std::vector<int> cells;
    for (const int block : ring) cells.push_back(cell_of[block]);
    nesting.odd_rings.push_back(std::move(cells));
  }
  for (const bool other : choice.other) nesting.press.emplace_back(other ? Press::other : Press::drawn);
  for (const EndMeeting& meeting : nesting.meetings) {
    if (is_open(meeting)) continue;
    const bool nested = nests(meeting, *nesting.press[quilt.layout.block[meeting.cell_a]],
                              *nesting.press[quilt.layout.block[meeting.cell_b]]);
    (nested ? nesting.nested : nesting.unnested) += 1;
  }
  nesting.press_again = choice.press_again;
  nesting.unnested_then = choice.unmet_then;
  return nesting;
}

}  // namespace farflung::score
