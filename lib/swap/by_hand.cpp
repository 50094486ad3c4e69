#include "swap/by_hand.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "swap/sites.hpp"

namespace farflung::swap {
namespace {

bool names(const std::vector<int>& cells, int cell) {
  return std::find(cells.begin(), cells.end(), cell) != cells.end();
}

/// The cell that lies so far from another; kNone where there is none.
int cell_beyond(const setting::Plan& plan, int cell, Point way) {
  const Point there = plan.cells[cell].centre + way;
  for (std::size_t c = 0; c < plan.cells.size(); ++c) {
    const Point off = plan.cells[c].centre - there;
    if (std::hypot(off.x.inches(), off.y.inches()) < 1e-3) return static_cast<int>(c);
  }
  return kNone;
}

/// Finds what has to move so that nothing is torn.
class Exchange {
 public:
  Exchange(const quilt::Quilt& quilt, int a, int b)
      : quilt_(quilt),
        plan_(quilt::plan_of(quilt)),
        way_(plan_.cells[b].centre - plan_.cells[a].centre),
        a_(a),
        b_(b) {}

  Result<Step> step() {
    if (a_ == b_) return problem(a_, "both cells are the same", "name another cell to swap with");
    std::vector<int> open = {a_};
    while (!open.empty()) {
      const int cell = open.back();
      open.pop_back();
      if (!goes_.insert(cell).second) continue;
      const int there = cell_beyond(plan_, cell, way_);
      if (there == kNone) return beyond(cell);
      for (const int sewn : sewn_to(cell)) open.push_back(sewn);
      for (const int sewn : sewn_to(there)) {
        const int here = cell_beyond(plan_, sewn, Point() - way_);
        if (here == kNone) return beyond(sewn);
        open.push_back(here);
      }
    }
    return as_step();
  }

 private:
  Problem problem(int cell, const std::string& cause, const std::string& remedy) const {
    return input_problem(setting::cell_name(plan_.cells[cell]), cause, remedy);
  }

  Problem beyond(int cell) const {
    return problem(cell, "its block moves with what it is sewn to, and that would hang beyond the blocks",
                   "name a place where all of it fits");
  }

  std::vector<int> sewn_to(int cell) const {
    std::vector<int> cells;
    for (const quilt::SewnUnit& unit : quilt_.sewn_units) {
      if (names(unit.cells, cell)) cells.insert(cells.end(), unit.cells.begin(), unit.cells.end());
    }
    return cells;
  }

  Result<Step> as_step() const {
    Step step{a_, b_, quilt_.layout.turn[b_], quilt_.layout.turn[a_], {}};
    std::vector<Place> back;
    for (const int cell : goes_) {
      const int there = cell_beyond(plan_, cell, way_);
      if (goes_.contains(there)) {
        return problem(there, "what is sewn there would hang over itself", "name a place further off");
      }
      for (const int each : {cell, there}) {
        if (is_kept_by_hand(quilt_, each)) {
          return problem(each, "its block is kept in place", "free it first: farflung free");
        }
      }
      step.whole.push_back({cell, there, quilt_.layout.turn[there]});
      back.push_back({there, cell, quilt_.layout.turn[cell]});
    }
    step.whole.insert(step.whole.end(), back.begin(), back.end());
    if (goes_.size() == 1) step.whole.clear();
    return step;
  }

  const quilt::Quilt& quilt_;
  setting::Plan plan_;
  Point way_;
  int a_, b_;
  std::set<int> goes_;
};

}  // namespace

bool is_sewn_to_others(const quilt::Quilt& quilt, int cell) {
  return std::any_of(quilt.sewn_units.begin(), quilt.sewn_units.end(),
                     [&](const quilt::SewnUnit& unit) { return names(unit.cells, cell); });
}

bool is_kept_by_hand(const quilt::Quilt& quilt, int cell) {
  if (!is_sewn_to_others(quilt, cell)) return quilt.layout.kept[cell];
  return std::any_of(quilt.sewn_units.begin(), quilt.sewn_units.end(),
                     [&](const quilt::SewnUnit& unit) { return names(unit.kept_by_hand, cell); });
}

std::vector<int> sewn_together(const quilt::Quilt& quilt) {
  std::vector<int> first(quilt.layout.block.size(), kNone);
  // Units may share cells: a pair in a row. Each pass joins some, so that there are no more passes than units.
  for (bool joined = true; joined;) {
    joined = false;
    for (const quilt::SewnUnit& unit : quilt.sewn_units) {
      int least = *std::min_element(unit.cells.begin(), unit.cells.end());
      for (const int cell : unit.cells) least = first[cell] == kNone ? least : std::min(least, first[cell]);
      for (const int cell : unit.cells) joined |= std::exchange(first[cell], least) != least;
    }
  }
  return first;
}

Result<Step> exchange(const quilt::Quilt& quilt, int a, int b) { return Exchange(quilt, a, b).step(); }

Result<Step> half_round(const quilt::Quilt& quilt, int cell) {
  const setting::Plan plan = quilt::plan_of(quilt);
  const Sites sites(quilt, plan);
  const auto site = std::find_if(sites.sites().begin(), sites.sites().end(),
                                 [&](const Site& each) { return names(each.cells, cell); });
  const std::string name = setting::cell_name(plan.cells[cell]);
  if (site == sites.sites().end()) return input_problem(name, "the cell is empty", "name a cell that holds a block");
  if (site->kept) return input_problem(name, "its block is kept in place", "free it first: farflung free");
  const int number = static_cast<int>(site - sites.sites().begin());
  if (!site->sewn() || !sites.units()[sites.wall().block[number]].turns_round) {
    return input_problem(name, "what is sewn there hangs one way only", "there is nothing to turn");
  }
  const Turn turn = sites.wall().turn[number] + Turn::quarters(2);
  return sites.in_cells({number, number, turn, turn}, sites.wall());
}

void carry_out(const Step& step, quilt::Quilt& quilt) {
  make(step, quilt.layout);
  for (quilt::SewnUnit& unit : quilt.sewn_units) {
    for (int& cell : unit.cells) {
      const auto moved =
          std::find_if(step.whole.begin(), step.whole.end(), [&](const Place& place) { return place.from == cell; });
      if (moved != step.whole.end()) cell = moved->cell;
    }
  }
  for (const Place& place : step.whole) quilt.layout.kept[place.cell] = is_sewn_to_others(quilt, place.cell);
}

}  // namespace farflung::swap
