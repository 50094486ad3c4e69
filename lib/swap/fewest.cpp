#include "swap/fewest.hpp"

#include <algorithm>
#include <map>

#include "swap/errands.hpp"

namespace farflung::swap {
namespace {

std::string pointer(const setting::Cell& cell) {
  return "/layout/cells/" + std::to_string(cell.row) + "/" + std::to_string(cell.column);
}

Problems differences(const quilt::Quilt& quilt, const setting::Plan& plan, const std::vector<int>& kinds,
                     const setting::Arrangement& to) {
  const setting::Arrangement& wall = quilt.layout;
  Problems problems;
  std::map<int, int> missing;
  for (std::size_t c = 0; c < plan.cells.size(); ++c) {
    const std::string name = setting::cell_name(plan.cells[c]);
    if ((wall.block[c] == kNone) != (to.block[c] == kNone)) {
      problems.push_back(input_problem(pointer(plan.cells[c]), name + " is empty in one of the two layouts",
                                       "fill the same cells in both"));
      continue;
    }
    if (wall.block[c] == kNone) continue;
    const int holds = kinds[wall.block[c]];
    const int wants = kinds[to.block[c]];
    --missing[holds];
    ++missing[wants];
    if (wall.kept[c] && (holds != wants || wall.turn[c] != to.turn[c])) {
      problems.push_back(input_problem(pointer(plan.cells[c]), name + " is kept, and the other layout changes it",
                                       "free the cell, or leave it as it is"));
    }
  }
  for (std::size_t c = 0; c < plan.cells.size(); ++c) {
    if (to.block[c] == kNone) continue;
    int& count = missing[kinds[to.block[c]]];
    if (count <= 0) continue;
    --count;
    problems.push_back(input_problem(pointer(plan.cells[c]),
                                     "the other layout has block " + quilt.blocks[to.block[c]].id + " in " +
                                         setting::cell_name(plan.cells[c]) + ", and no block like it is on the wall",
                                     "put it up in place of one that the other layout leaves out"));
  }
  return problems;
}

}  // namespace

Result<FewestReport> fewest_swaps(const quilt::Quilt& quilt, const setting::Arrangement& to, Seed seed) {
  const setting::Plan plan = quilt::plan_of(quilt);
  const std::vector<int> kinds = make_ups(quilt);
  if (to.block.size() != plan.cells.size() || to.turn.size() != plan.cells.size()) {
    return input_problem("/layout/cells", "the other layout is of another setting", "give a layout of this quilt");
  }
  Problems problems = differences(quilt, plan, kinds, to);
  if (!problems.empty()) return problems;

  const Distances distance(plan);
  const Errands errands = errands_between(quilt.layout, to, kinds, distance);
  FewestReport report;
  report.proven = errands.proven;
  report.plain_swaps = plain_swaps(quilt.layout, to);
  const std::vector<Trip> order = shortest_walk(errands.trips, distance, seed);
  report.walk = walk(order, distance);
  report.steps = steps_along(order, quilt.layout, to);
  for (const Step& step : report.steps) ++(step.turns_only() ? report.turns : report.swaps);
  return report;
}

setting::Arrangement arrived(setting::Arrangement wall, const std::vector<Step>& steps) {
  for (const Step& step : steps) make(step, wall);
  return wall;
}

}  // namespace farflung::swap
