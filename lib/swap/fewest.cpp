#include "swap/fewest.hpp"

#include <algorithm>
#include <map>

#include "swap/errands.hpp"

namespace farflung::swap {
namespace {

std::string pointer(const setting::Cell& cell) {
  return "/layout/cells/" + std::to_string(cell.row) + "/" + std::to_string(cell.column);
}

/// Where the other layout cannot be reached because it fills other cells.
Problems cells_that_differ(const setting::Plan& plan, const setting::Arrangement& wall,
                           const setting::Arrangement& to) {
  Problems problems;
  for (std::size_t c = 0; c < plan.cells.size(); ++c) {
    if ((wall.block[c] == kNone) == (to.block[c] == kNone)) continue;
    const std::string name = setting::cell_name(plan.cells[c]);
    problems.push_back(input_problem(pointer(plan.cells[c]), name + " is empty in one of the two layouts",
                                     "fill the same cells in both"));
  }
  return problems;
}

/// What the wall lacks, or must not move, for the other layout.
Problems units_that_differ(const quilt::Quilt& quilt, const setting::Plan& plan, const Sites& sites,
                           const Sites::Fitted& to) {
  Problems problems;
  const auto add = [&](int site, const std::string& cause, const std::string& remedy) {
    const setting::Cell& first = plan.cells[sites.sites()[site].cells.front()];
    problems.push_back(input_problem(pointer(first), setting::cell_name(first) + cause, remedy));
  };
  for (const int site : to.torn) {
    add(site, " hangs sewn to others, and the other layout has no such unit there",
        "move it whole by hand (farflung swap), or take its stage out of /layout/sewn");
  }
  if (!problems.empty()) return problems;
  std::map<int, int> missing;
  const setting::Arrangement& wall = sites.wall();
  for (int s = 0; s < static_cast<int>(sites.sites().size()); ++s) {
    const int holds = sites.kinds()[wall.block[s]];
    const int wants = sites.kinds()[to.layout.block[s]];
    --missing[holds];
    ++missing[wants];
    if (sites.sites()[s].kept && (holds != wants || wall.turn[s] != to.layout.turn[s])) {
      add(s, " is kept, and the other layout changes it", "free the cell, or leave it as it is");
    }
  }
  for (int s = 0; s < static_cast<int>(sites.sites().size()); ++s) {
    int& count = missing[sites.kinds()[to.layout.block[s]]];
    if (count <= 0) continue;
    --count;
    const setting::Cell& cell = plan.cells[sites.sites()[s].cells.front()];
    const bool sewn = sites.sites()[s].sewn();
    problems.push_back(input_problem(
        pointer(cell),
        "the other layout has " + (sewn ? "another sewn unit" : "block " + quilt.blocks[to.layout.block[s]].id) +
            " in " + setting::cell_name(cell) + ", and nothing like it hangs free on the wall",
        "put it up in place of one that the other layout leaves out"));
  }
  return problems;
}

}  // namespace

Result<FewestReport> fewest_swaps(const quilt::Quilt& quilt, const setting::Arrangement& to, Seed seed) {
  const setting::Plan plan = quilt::plan_of(quilt);
  if (to.block.size() != plan.cells.size() || to.turn.size() != plan.cells.size()) {
    return input_problem("/layout/cells", "the other layout is of another setting", "give a layout of this quilt");
  }
  Problems problems = cells_that_differ(plan, quilt.layout, to);
  if (!problems.empty()) return problems;
  const Sites sites(quilt, plan);
  const Sites::Fitted fitted = sites.fitted(to);
  problems = units_that_differ(quilt, plan, sites, fitted);
  if (!problems.empty()) return problems;

  const Distances distance(plan, sites);
  const Errands errands = errands_between(sites.wall(), fitted.layout, sites.kinds(), distance);
  FewestReport report;
  report.proven = errands.proven;
  report.plain_swaps = plain_swaps(sites.wall(), fitted.layout);
  const std::vector<Trip> order = shortest_walk(errands.trips, distance, seed);
  report.walk = walk(order, distance);
  setting::Arrangement before = sites.wall();
  for (const Step& step : steps_along(order, sites.wall(), fitted.layout)) {
    ++(step.turns_only() ? report.turns : report.swaps);
    report.steps.push_back(sites.in_cells(step, before));
    make(step, before);
  }
  return report;
}

setting::Arrangement arrived(setting::Arrangement wall, const std::vector<Step>& steps) {
  for (const Step& step : steps) make(step, wall);
  return wall;
}

}  // namespace farflung::swap
