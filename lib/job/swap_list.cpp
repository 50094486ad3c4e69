#include "job/swap_list.hpp"

#include <algorithm>

#include "base/counted.hpp"
#include "job/place_json.hpp"
#include "swap/says.hpp"

namespace farflung::job {
namespace {

/// " (look at R1 C4 first: it is not sure)"; "" where the step rests on nothing that is unsure.
std::string look_first(const setting::Plan& plan, const swap::Step& step, const std::vector<int>& unsure) {
  std::vector<int> moved = {step.a, step.b};
  for (const swap::Place& place : step.whole) moved.push_back(place.cell);
  std::string names;
  int count = 0;
  for (const int cell : unsure) {
    if (std::find(moved.begin(), moved.end(), cell) == moved.end()) continue;
    names += (count++ == 0 ? "" : " and ") + setting::cell_name(plan.cells[cell]);
  }
  if (count == 0) return "";
  return " (look at " + names + " first: " + (count == 1 ? "it is" : "they are") + " not sure)";
}

}  // namespace

Report step_json(const setting::Plan& plan, const swap::Made& made) {
  Report step = {{"a", place_json(plan, made.step.a)},
                 {"b", place_json(plan, made.step.b)},
                 {"turn_a", made.step.turn_a.quarters()},
                 {"turn_b", made.step.turn_b.quarters()},
                 {"touch", made.after.terms.touches},
                 {"F", made.after.F},
                 {"says", made.says}};
  if (made.step.whole.empty()) return step;
  step["whole"] = Report::array();
  for (const swap::Place& place : made.step.whole) {
    step["whole"].push_back({{"cell", place_json(plan, place.cell)},
                             {"from", place_json(plan, place.from)},
                             {"turn", place.turn.quarters()}});
  }
  return step;
}

std::string add_way(Report& report, const quilt::Quilt& quilt, const swap::FewestReport& way,
                    const std::vector<int>& unsure) {
  const score::Measure measure(quilt);
  report["swaps"] = Report::array();
  std::string words;
  setting::Arrangement layout = quilt.layout;
  for (const swap::Step& step : way.steps) {
    const setting::Arrangement before = layout;
    swap::make(step, layout);
    const swap::Made made{step, measure.score(layout),
                          swap::says_of(measure, step, before, layout) + look_first(measure.plan(), step, unsure)};
    report["swaps"].push_back(step_json(measure.plan(), made));
    words += "  " + std::to_string(report["swaps"].size()) + ". " + made.says + "\n";
  }
  report["proven"] = way.proven;
  report["plain"] = way.plain_swaps;
  if (way.steps.empty()) return "The wall is as it should be.\n";
  return counted(way.swaps, "swap", "swaps") + " and " + counted(way.turns, "turn", "turns") +
         (way.proven ? ", as few as can be:\n" : ":\n") + words;
}

}  // namespace farflung::job
