#include "cloth/piecing.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "cloth/extent.hpp"
#include "cloth/seams.hpp"
#include "cloth/shape.hpp"

namespace farflung::cloth {
namespace {

using block::Pattern;
using block::PiecingStep;
using block::Pressing;
using block::Unit;

Point point_of(Spot spot) { return {Length::inches(spot.x), Length::inches(spot.y)}; }
Spot spot_of(Point point) { return {point.x.inches(), point.y.inches()}; }

Unit patch_unit(int index) { return {Unit::Kind::patch, index}; }
Unit step_unit(int index) { return {Unit::Kind::step, index}; }

/// Parts the patches again and again, then joins them in the opposite order.
class OrderSearch {
 public:
  OrderSearch(const Pattern& pattern, std::vector<int>& stuck) : pattern_(pattern), stuck_(stuck) {}

  std::optional<Unit> unit(const std::vector<int>& patches) {
    if (patches.size() == 1) return patch_unit(patches[0]);
    std::vector<int> first, second;
    if (!parted(pattern_, patches, first, second)) {
      stuck_.insert(stuck_.end(), patches.begin(), patches.end());
      return std::nullopt;
    }
    const auto a = unit(first);
    const auto b = unit(second);
    if (!a || !b) return std::nullopt;
    steps.push_back({{*a, *b}, {}});
    return step_unit(static_cast<int>(steps.size()) - 1);
  }

  std::vector<PiecingStep> steps;

 private:
  const Pattern& pattern_;
  std::vector<int>& stuck_;
};

std::vector<std::vector<int>> patches_by_step(const std::vector<PiecingStep>& steps) {
  std::vector<std::vector<int>> result;
  for (const PiecingStep& step : steps) {
    std::vector<int> mine;
    for (Unit unit : step.join) {
      if (unit.kind == Unit::Kind::patch) {
        mine.push_back(unit.index);
      } else {
        mine.insert(mine.end(), result[unit.index].begin(), result[unit.index].end());
      }
    }
    std::sort(mine.begin(), mine.end());
    result.push_back(std::move(mine));
  }
  return result;
}

std::vector<int> patches_of(Unit unit, const std::vector<std::vector<int>>& by_step) {
  return unit.kind == Unit::Kind::patch ? std::vector<int>{unit.index} : by_step[unit.index];
}

/// The patches along one side of a seam, the longest share first.
std::vector<int> along(const std::vector<Stretch>& stretches, bool side_a) {
  std::map<int, double> lengths;
  for (const Stretch& one : stretches) {
    lengths[side_a ? one.patch_a : one.patch_b] += std::hypot(one.to.x - one.from.x, one.to.y - one.from.y);
  }
  std::vector<int> result;
  result.reserve(lengths.size());
  for (const auto& [patch, length] : lengths) result.push_back(patch);
  std::stable_sort(result.begin(), result.end(), [&](int a, int b) { return lengths[a] > lengths[b] + kNear; });
  return result;
}

/// Seams between units of a join that touch: every pair of neighbours.
std::vector<Seam> seams_of(const Pattern& pattern, const PiecingStep& step,
                           const std::vector<std::vector<int>>& by_step, bool& straight) {
  std::vector<Seam> seams;
  for (std::size_t a = 0; a < step.join.size(); ++a) {
    for (std::size_t b = a + 1; b < step.join.size(); ++b) {
      const auto shared =
          shared_boundary(pattern, patches_of(step.join[a], by_step), patches_of(step.join[b], by_step));
      if (shared.empty()) continue;
      const auto line = straight_line(shared);
      if (!line) straight = false;
      Seam seam;
      const Stretch ends = line.value_or(shared.front());
      seam.from = point_of(ends.from);
      seam.to = point_of(ends.to);
      double length = 0;
      for (const Stretch& one : shared) length += std::hypot(one.to.x - one.from.x, one.to.y - one.from.y);
      seam.length = Length::inches(length);
      seam.side_a = static_cast<int>(a);
      seam.side_b = static_cast<int>(b);
      seam.along_a = along(shared, true);
      seam.along_b = along(shared, false);
      seams.push_back(std::move(seam));
    }
  }
  return seams;
}

/// Where an earlier seam ends on a later one, and which way along it the earlier seam's allowance lies.
struct End {
  int step = 0;             ///< of the seam that ends here
  double at = 0;            ///< inches along the later seam
  double toward_first = 0;  ///< way of that seam's side 0, along the later seam: its sign counts
};

struct SeamsMeeting {
  int step_a = 0, step_b = 0;
  double way_a = 0, way_b = 0;  ///< sign of the way to side 0 of each, along the seam on which they meet
};

/// Which seams meet on which, for pressing: two-sided joins only.
class PressChoice {
 public:
  PressChoice(const Pattern& pattern, std::vector<Step>& steps, const std::vector<std::vector<int>>& by_step)
      : pattern_(pattern), steps_(steps), by_step_(by_step) {
    for (int s = 0; s < static_cast<int>(steps.size()); ++s) find_meetings(s);
  }

  /// Tries all ways to press up to fourteen steps, else betters one at a time.
  void choose() {
    const int count = static_cast<int>(steps_.size());
    std::vector<int> toward(count, 0);
    if (count <= 14) {
      std::vector<int> best = toward;
      double least = 1e300;
      for (unsigned mask = 0; mask < (1U << count); ++mask) {
        for (int s = 0; s < count; ++s) toward[s] = (mask >> s) & 1U;
        const double cost = cost_of(toward);
        if (cost < least - 1e-9) {
          least = cost;
          best = toward;
        }
      }
      toward = best;
    } else {
      for (bool changed = true; changed;) {
        changed = false;
        for (int s = 0; s < count; ++s) {
          const double before = cost_of(toward);
          toward[s] ^= 1;
          if (cost_of(toward) < before - 1e-9) {
            changed = true;
          } else {
            toward[s] ^= 1;
          }
        }
      }
    }
    for (int s = 0; s < count; ++s) steps_[s].press = {Pressing::Kind::toward, steps_[s].join[toward[s]]};
  }

  /// Counts, on every seam, what meets and what nests as pressed.
  void count() {
    for (int s = 0; s < static_cast<int>(steps_.size()); ++s) {
      for (std::size_t k = 0; k < steps_[s].seams.size(); ++k) {
        for (const SeamsMeeting& met : meetings_[s][k]) {
          ++steps_[s].seams[k].meets;
          if (nests(met)) ++steps_[s].seams[k].nests;
        }
      }
    }
  }

 private:
  /// +1 pressed toward the first unit of its join, -1 toward another, 0 open or spun.
  int pressed(int step) const {
    const Step& mine = steps_[step];
    if (mine.press.kind != Pressing::Kind::toward) return 0;
    return mine.press.toward == mine.join[0] ? 1 : -1;
  }

  bool nests(const SeamsMeeting& met) const {
    const double a = met.way_a * pressed(met.step_a);
    const double b = met.way_b * pressed(met.step_b);
    return a * b < 0;
  }

  double cost_of(const std::vector<int>& toward) const {
    double cost = 0;
    for (std::size_t s = 0; s < meetings_.size(); ++s) {
      for (const auto& seam : meetings_[s]) {
        for (const SeamsMeeting& met : seam) {
          const double a = met.way_a * (toward[met.step_a] == 0 ? 1 : -1);
          const double b = met.way_b * (toward[met.step_b] == 0 ? 1 : -1);
          if (a * b >= 0) cost += 1;
        }
      }
      // Away from the side where more seams end: that side folds back less willingly.
      for (const Seam& seam : steps_[s].seams) {
        const auto bulk = static_cast<double>(toward[s] == 0 ? seam.along_a.size() : seam.along_b.size());
        cost += 1e-3 * bulk;
      }
    }
    return cost;
  }

  void find_meetings(int step) {
    meetings_.emplace_back();
    for (const Seam& seam : steps_[step].seams) {
      meetings_.back().emplace_back();
      std::vector<End> first = ends_on(seam, steps_[step].join[seam.side_a]);
      const std::vector<End> second = ends_on(seam, steps_[step].join[seam.side_b]);
      for (const End& a : first) {
        for (const End& b : second) {
          if (std::abs(a.at - b.at) > 3 * kNear) continue;
          meetings_.back().back().push_back({a.step, b.step, a.toward_first, b.toward_first});
        }
      }
    }
  }

  /// The seams within a unit that end on a later seam (not at its own ends).
  std::vector<End> ends_on(const Seam& seam, Unit unit) const {
    std::vector<End> ends;
    std::vector<Unit> open = {unit};
    while (!open.empty()) {
      const Unit next = open.back();
      open.pop_back();
      if (next.kind == Unit::Kind::patch) continue;
      const Step& inner = steps_[next.index];
      open.insert(open.end(), inner.join.begin(), inner.join.end());
      if (inner.join.size() != 2) continue;
      for (const Seam& mine : inner.seams) add_ends(seam, mine, next.index, ends);
    }
    return ends;
  }

  void add_ends(const Seam& seam, const Seam& inner, int step, std::vector<End>& ends) const {
    const Spot from = spot_of(seam.from);
    const Spot to = spot_of(seam.to);
    const double size = std::hypot(to.x - from.x, to.y - from.y);
    if (size <= kNear) return;
    const Spot unit{(to.x - from.x) / size, (to.y - from.y) / size};
    for (Point end : {inner.from, inner.to}) {
      const Spot p = spot_of(end);
      const double off = unit.x * (p.y - from.y) - unit.y * (p.x - from.x);
      const double at = unit.x * (p.x - from.x) + unit.y * (p.y - from.y);
      if (std::abs(off) > 3 * kNear || at < 3 * kNear || at > size - 3 * kNear) continue;
      ends.push_back({step, at, way_to_first(inner, step, unit)});
    }
  }

  /// The way from a seam to the middle of the patches beside it on its first unit's side, along `unit`.
  double way_to_first(const Seam& inner, int step, Spot unit) const {
    const std::vector<int> first = patches_of(steps_[step].join[0], by_step_);
    const std::vector<int>& beside = inner.side_a == 0 ? inner.along_a : inner.along_b;
    const int patch = beside.empty() ? first.front() : beside.front();
    Spot middle;
    const Polygon& polygon = pattern_.patches[patch].polygon;
    for (const Point& p : polygon) {
      middle.x += p.x.inches() / static_cast<double>(polygon.size());
      middle.y += p.y.inches() / static_cast<double>(polygon.size());
    }
    // Square to the inner seam, on that side; its part along the later seam gives the sign.
    const Spot a = spot_of(inner.from);
    const Spot b = spot_of(inner.to);
    Spot normal{-(b.y - a.y), b.x - a.x};
    if (normal.x * (middle.x - a.x) + normal.y * (middle.y - a.y) < 0) normal = {-normal.x, -normal.y};
    return normal.x * unit.x + normal.y * unit.y;
  }

  const Pattern& pattern_;
  std::vector<Step>& steps_;
  const std::vector<std::vector<int>>& by_step_;
  std::vector<std::vector<std::vector<SeamsMeeting>>> meetings_;  ///< by step and seam
};

void measure(Step& step, const Pattern& pattern, Length seam, Ruler ruler) {
  Point low = pattern.patches[step.patches.front()].polygon.front();
  Point high = low;
  double covered = 0;
  for (int patch : step.patches) {
    covered += area(pattern.patches[patch].polygon);
    for (const Point& p : pattern.patches[patch].polygon) {
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
  }
  step.corner = low;
  step.width = high.x - low.x;
  step.height = high.y - low.y;
  const double box = step.width.inches() * step.height.inches();
  step.fills_box = std::abs(box - covered) <= 4 * kNear * (step.width + step.height).inches();
  step.trim_width = trimmed(step.width + 2 * seam, ruler);
  step.trim_height = trimmed(step.height + 2 * seam, ruler);
}

std::string unit_name(const Pattern& pattern, Unit unit) {
  if (unit.kind == Unit::Kind::step) return "unit " + std::to_string(unit.index + 1);
  return pattern.slots[pattern.patches[unit.index].slot].name + " (patch " + std::to_string(unit.index + 1) + ")";
}

std::string joined(const std::vector<std::string>& names, const char* last) {
  std::string result;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) result += i + 1 == names.size() ? last : ", ";
    result += names[i];
  }
  return result;
}

const std::string& name_of(const print::Print& print, Called called) {
  return called == Called::code && !print.code.empty() ? print.code : print::name_of(print);
}

std::string press_by_unit(const Pattern& pattern, const Pressing& press) {
  if (press.kind == Pressing::Kind::open) return "Press open.";
  if (press.kind == Pressing::Kind::spun) return "Spin the seam where it meets others.";
  return "Press toward " + unit_name(pattern, press.toward) + ".";
}

void say(Step& step, const Pattern& pattern, Ruler ruler) {
  std::vector<std::string> names;
  for (Unit unit : step.join) names.push_back(unit_name(pattern, unit));
  step.says = "Sew " + joined(names, " to ") + ". " + press_by_unit(pattern, step.press);
  if (step.fills_box) {
    step.says += " It measures " + said(step.trim_width, step.trim_height, ruler) + " unfinished: trim to that.";
  }
}

void remark_on(Piecing& piecing) {
  int meets = 0;
  int nests = 0;
  for (const Step& step : piecing.steps) {
    for (const Seam& seam : step.seams) {
      meets += seam.meets;
      nests += seam.nests;
    }
  }
  if (meets == 0 && !piecing.steps.empty()) {
    piecing.remarks.push_back("Inside this block no two seams meet across a third: nothing has to nest.");
  } else if (nests < meets) {
    piecing.remarks.push_back(std::to_string(meets - nests) + " of " + std::to_string(meets) +
                              " meeting seams inside this block do not nest: pin those, or press them open.");
  }
}

}  // namespace

std::vector<PiecingStep> straight_seams(const Pattern& pattern, std::vector<int>* stuck) {
  std::vector<int> kept;
  std::vector<int> all(pattern.patches.size());
  std::iota(all.begin(), all.end(), 0);
  if (all.size() < 2) return {};
  OrderSearch search(pattern, kept);
  const bool found = search.unit(all).has_value();
  if (stuck) *stuck = kept;
  return found ? search.steps : std::vector<PiecingStep>{};
}

Piecing piecing_of(const Pattern& pattern, Length seam_allowance, Ruler ruler) {
  Piecing piecing;
  std::vector<PiecingStep> order = pattern.piecing;
  piecing.given = !order.empty();
  if (!piecing.given) order = straight_seams(pattern, &piecing.set_in);
  piecing.straight = piecing.set_in.empty();
  const auto by_step = patches_by_step(order);
  for (std::size_t s = 0; s < order.size(); ++s) {
    Step step;
    step.join = order[s].join;
    step.press = order[s].press;
    bool straight = true;
    step.seams = seams_of(pattern, order[s], by_step, straight);
    if (!straight) {
      piecing.straight = false;
      piecing.remarks.push_back(
          "Step " + std::to_string(s + 1) +
          " turns a corner: sew up to the corner, stop with the needle down a seam allowance from "
          "the edge, turn, and go on.");
    }
    step.patches = by_step[s];
    measure(step, pattern, seam_allowance, ruler);
    piecing.steps.push_back(std::move(step));
  }
  PressChoice pressing(pattern, piecing.steps, by_step);
  if (!piecing.given) pressing.choose();
  pressing.count();
  for (Step& step : piecing.steps) say(step, pattern, ruler);
  if (!piecing.set_in.empty()) {
    piecing.remarks.push_back("No straight seam parts " + std::to_string(piecing.set_in.size()) +
                              " patches of this block: it needs set-in or partial seams.");
  }
  remark_on(piecing);
  return piecing;
}

std::string press_said(const quilt::Quilt& quilt, const block::Block& block, const Piecing& piecing, int index,
                       Called called) {
  const Step& step = piecing.steps[index];
  if (step.press.kind == Pressing::Kind::open) return "open";
  if (step.press.kind == Pressing::Kind::spun) return "spun";
  const auto place = std::find(step.join.begin(), step.join.end(), step.press.toward) - step.join.begin();
  const bool other = block.press == block::Block::Press::other;
  const bool away = other && step.join.size() != 2;
  const int side = static_cast<int>(other && !away ? 1 - place : place);
  std::vector<std::string> names;
  for (const Seam& seam : step.seams) {
    if (seam.side_a != side && seam.side_b != side) continue;
    for (int patch : seam.side_a == side ? seam.along_a : seam.along_b) {
      const int print = quilt::print_of_slot(quilt, block, quilt.patterns[block.pattern].patches[patch].slot);
      const std::string name = print == kNone ? "the undealt patch" : name_of(quilt.prints[print], called);
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
  }
  return (away ? "away from " : "toward ") + joined(names, " and ");
}

}  // namespace farflung::cloth
