#include "block/pattern.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "block/cover.hpp"

namespace farflung::block {
namespace {

/// The units that stand on the table, and whether each was sewn into something already.
class SewnUnits {
 public:
  SewnUnits(int patches, int steps) : patch_used_(patches, false), step_used_(steps, false) {}

  /// False where there is no such unit before step `now`, or it was joined already.
  bool take(Unit unit, int now) {
    auto& used = unit.kind == Unit::Kind::patch ? patch_used_ : step_used_;
    const int made = unit.kind == Unit::Kind::patch ? static_cast<int>(patch_used_.size()) : now;
    if (unit.index < 0 || unit.index >= made || used[unit.index]) return false;
    used[unit.index] = true;
    return true;
  }

  /// After the last step one unit is left: the block.
  bool all_joined() const {
    const auto left = std::count(patch_used_.begin(), patch_used_.end(), false) +
                      std::count(step_used_.begin(), step_used_.end(), false);
    return left == 1;
  }

 private:
  std::vector<bool> patch_used_, step_used_;
};

std::string unit_text(Unit unit) {
  return unit.kind == Unit::Kind::patch ? std::to_string(unit.index) : "\"#" + std::to_string(unit.index) + "\"";
}

void check_step(const PiecingStep& step, int index, SewnUnits& units, const std::string& at, Problems& problems) {
  for (Unit unit : step.join) {
    if (!units.take(unit, index)) {
      problems.push_back(input_problem(at + "/join", "there is no unit " + unit_text(unit) + " left to join here",
                                       "join each patch and each step's result once, after it is made"));
    }
  }
  if (step.join.size() < 2) {
    problems.push_back(input_problem(at + "/join", "a step joins two units or more", "name both sides of the seam"));
  }
  if (step.press.kind == Pressing::Kind::toward &&
      std::find(step.join.begin(), step.join.end(), step.press.toward) == step.join.end()) {
    problems.push_back(input_problem(at + "/press", "the seam is pressed toward a unit that it does not join",
                                     "name one of the joined units, \"open\" or \"spun\""));
  }
}

void check_piecing(const Pattern& pattern, const std::string& at, Problems& problems) {
  if (pattern.piecing.empty()) return;
  SewnUnits units(static_cast<int>(pattern.patches.size()), static_cast<int>(pattern.piecing.size()));
  const std::size_t before = problems.size();
  for (std::size_t i = 0; i < pattern.piecing.size(); ++i) {
    check_step(pattern.piecing[i], static_cast<int>(i), units, at + "/piecing/" + std::to_string(i), problems);
  }
  if (problems.size() == before && !units.all_joined()) {
    problems.push_back(input_problem(at + "/piecing", "the steps do not join every patch into one block",
                                     "add the steps that are missing, or leave piecing out"));
  }
}

void check_turns(const Pattern& pattern, const std::string& at, Problems& problems) {
  if (pattern.turns.empty()) {
    problems.push_back(input_problem(at + "/turns", "no turn is allowed", "give at least one, such as [0]"));
  }
  for (std::size_t i = 0; i < pattern.turns.size(); ++i) {
    const std::string here = at + "/turns/" + std::to_string(i);
    if (std::count(pattern.turns.begin(), pattern.turns.end(), pattern.turns[i]) > 1) {
      problems.push_back(input_problem(here, "a turn is listed twice", "list each turn once"));
    }
    if (pattern.turns[i].quarters() % 2 == 1 && pattern.width != pattern.height) {
      problems.push_back(input_problem(here, "a block that is not square cannot lie on its side",
                                       "allow turns 0 and 2 only, or make the block square"));
    }
  }
}

void check_slots(const Pattern& pattern, const std::string& at, Problems& problems) {
  std::vector<bool> used(pattern.slots.size(), false);
  for (const Patch& patch : pattern.patches) {
    if (patch.slot >= 0 && patch.slot < static_cast<int>(used.size())) used[patch.slot] = true;
  }
  for (std::size_t i = 0; i < used.size(); ++i) {
    if (!used[i]) {
      problems.push_back(input_problem(at + "/slots/" + pattern.slots[i].name, "no patch has this slot",
                                       "give it a patch, or take the slot out"));
    }
  }
}

}  // namespace

int Pattern::slot_named(const std::string& slot) const {
  const auto found = std::find_if(slots.begin(), slots.end(), [&](const Slot& s) { return s.name == slot; });
  return found == slots.end() ? kNone : static_cast<int>(found - slots.begin());
}

bool Pattern::allows(Turn turn) const { return std::find(turns.begin(), turns.end(), turn) != turns.end(); }

Problems problems_of(const Pattern& pattern, const std::string& at) {
  Problems problems;
  if (pattern.width <= Length() || pattern.height <= Length()) {
    problems.push_back(input_problem(at, "the block has no size", "give a width and a height above zero"));
    return problems;
  }
  check_turns(pattern, at, problems);
  check_slots(pattern, at, problems);
  check_cover(pattern, at, problems);
  check_piecing(pattern, at, problems);
  return problems;
}

std::vector<double> slot_shares(const Pattern& pattern) {
  std::vector<double> shares(pattern.slots.size(), 0.0);
  for (const Patch& patch : pattern.patches) shares[patch.slot] += area(patch.polygon);
  const double whole = std::accumulate(shares.begin(), shares.end(), 0.0);
  for (double& share : shares) share /= whole;
  return shares;
}

Pattern scaled(const Pattern& pattern, Length width, Length height) {
  const double x_factor = width.inches() / pattern.width.inches();
  const double y_factor = height.inches() / pattern.height.inches();
  Pattern result = pattern;
  result.width = width;
  result.height = height;
  for (Patch& patch : result.patches) {
    for (Point& point : patch.polygon) {
      point = {Length::inches(point.x.inches() * x_factor), Length::inches(point.y.inches() * y_factor)};
    }
  }
  return result;
}

std::vector<InnerSeam> inner_seams(const Pattern& pattern) {
  std::vector<InnerSeam> seams;
  const int patches = static_cast<int>(pattern.patches.size());
  for (int a = 0; a < patches; ++a) {
    for (int b = a + 1; b < patches; ++b) {
      const Meeting met = meeting(pattern.patches[a].polygon, pattern.patches[b].polygon);
      if (met.seam > Length()) seams.push_back({a, b, met.seam});
    }
  }
  return seams;
}

}  // namespace farflung::block
