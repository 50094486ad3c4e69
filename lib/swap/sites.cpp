#include "swap/sites.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace farflung::swap {
namespace {

constexpr Turn kRound = Turn::quarters(2);

/// Which cells hang together: the least of them stands for all.
std::vector<int> joined_cells(const quilt::Quilt& quilt) {
  std::vector<int> first(quilt.layout.block.size());
  std::iota(first.begin(), first.end(), 0);
  const auto root = [&](int cell) {
    while (first[cell] != cell) cell = first[cell];
    return cell;
  };
  for (const quilt::SewnUnit& unit : quilt.sewn_units) {
    for (const int cell : unit.cells) {
      const int a = root(unit.cells.front());
      const int b = root(cell);
      first[std::max(a, b)] = std::min(a, b);
    }
  }
  for (int& cell : first) cell = root(cell);
  return first;
}

bool same_spot(Point a, Point b) {
  return std::abs((a.x - b.x).inches()) < 1e-3 && std::abs((a.y - b.y).inches()) < 1e-3;
}

/// Whether one cell after the other lies as far apart here as there, and belongs to the same pattern.
bool same_shape(const setting::Plan& plan, const std::vector<int>& here, const std::vector<int>& there) {
  if (here.size() != there.size()) return false;
  for (std::size_t i = 0; i < here.size(); ++i) {
    const setting::Cell& a = plan.cells[here[i]];
    const setting::Cell& b = plan.cells[there[i]];
    if (a.pattern != b.pattern) return false;
    if (!same_spot(a.centre - plan.cells[here.front()].centre, b.centre - plan.cells[there.front()].centre))
      return false;
  }
  return true;
}

/// Whether cells and their patterns look the same turned round.
bool same_turned_round(const setting::Plan& plan, const std::vector<int>& cells) {
  const Point sum = plan.cells[cells.front()].centre + plan.cells[cells.back()].centre;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const setting::Cell& a = plan.cells[cells[i]];
    const setting::Cell& b = plan.cells[cells[cells.size() - 1 - i]];
    if (a.pattern != b.pattern || !same_spot(a.centre + b.centre, sum)) return false;
  }
  return true;
}

bool may_take(const quilt::Quilt& quilt, int block, Turn turn) {
  const std::vector<Turn> turns = quilt::turns_of(quilt, quilt.blocks[block]);
  return std::find(turns.begin(), turns.end(), turn) != turns.end();
}

/// The unit the other way up.
Unit turned_round(Unit unit) {
  std::reverse(unit.blocks.begin(), unit.blocks.end());
  std::reverse(unit.turns.begin(), unit.turns.end());
  for (Turn& turn : unit.turns) turn = turn + kRound;
  return unit;
}

}  // namespace

Sites::Sites(const quilt::Quilt& quilt, const setting::Plan& plan)
    : empty_cells_(quilt.layout), blocks_(static_cast<int>(quilt.blocks.size())) {
  std::fill(empty_cells_.block.begin(), empty_cells_.block.end(), kNone);
  find_sites(quilt);
  find_classes(plan);
  find_units(quilt, plan);
}

void Sites::find_sites(const quilt::Quilt& quilt) {
  const std::vector<int> first = joined_cells(quilt);
  std::vector<int> site_of(first.size(), kNone);
  for (int cell = 0; cell < static_cast<int>(first.size()); ++cell) {
    if (quilt.layout.block[cell] == kNone) continue;
    int& site = site_of[first[cell]];
    if (site == kNone) {
      site = static_cast<int>(sites_.size());
      sites_.emplace_back();
    }
    sites_[site].cells.push_back(cell);
  }
  for (Site& site : sites_) site.kept = !site.sewn() && quilt.layout.kept[site.cells.front()];
  for (const quilt::SewnUnit& unit : quilt.sewn_units) {
    for (const int cell : unit.kept_by_hand) sites_[site_of[first[cell]]].kept = true;
  }
}

void Sites::find_classes(const setting::Plan& plan) {
  std::vector<int> examples;
  for (int s = 0; s < static_cast<int>(sites_.size()); ++s) {
    const auto known = std::find_if(examples.begin(), examples.end(), [&](int example) {
      return same_shape(plan, sites_[example].cells, sites_[s].cells);
    });
    sites_[s].klass = static_cast<int>(known - examples.begin());
    if (known == examples.end()) examples.push_back(s);
  }
}

Sites::Look Sites::look(const Unit& unit) const {
  Look look;
  for (std::size_t i = 0; i < unit.blocks.size(); ++i) {
    look.emplace_back(kinds_[unit.blocks[i]], unit.turns[i].quarters());
  }
  return look;
}

void Sites::find_units(const quilt::Quilt& quilt, const setting::Plan& plan) {
  for (int block = 0; block < blocks_; ++block) units_.push_back({{block}, {Turn()}, false});
  kinds_ = make_ups(quilt);
  std::map<std::pair<int, Look>, int> known;
  int kinds = blocks_;
  for (const Site& site : sites_) {
    wall_.kept.push_back(site.kept);
    if (!site.sewn()) {
      wall_.block.push_back(quilt.layout.block[site.cells.front()]);
      wall_.turn.push_back(quilt.layout.turn[site.cells.front()]);
      continue;
    }
    Unit unit;
    bool turns = same_turned_round(plan, site.cells);
    for (const int cell : site.cells) {
      unit.blocks.push_back(quilt.layout.block[cell]);
      unit.turns.push_back(quilt.layout.turn[cell]);
      turns = turns && may_take(quilt, unit.blocks.back(), unit.turns.back() + kRound);
    }
    // Of its two ways up the first is the same for all that look alike.
    const Unit round = turned_round(unit);
    unit.turns_round = turns && look(unit) != look(round);
    const bool hangs_round = unit.turns_round && look(round) < look(unit);
    if (hangs_round) unit = round, unit.turns_round = true;
    wall_.block.push_back(static_cast<int>(units_.size()));
    wall_.turn.push_back(hangs_round ? kRound : Turn());
    kinds_.push_back(known.try_emplace({site.klass, look(unit)}, kinds).first->second);
    if (kinds_.back() == kinds) ++kinds;
    class_of_unit_.push_back(site.klass);
    units_.push_back(std::move(unit));
  }
}

Unit Sites::hanging(int unit, Turn turn) const {
  if (unit < blocks_) return {{unit}, {turn}, false};
  return turn == kRound ? turned_round(units_[unit]) : units_[unit];
}

Sites::Fitted Sites::fitted(const setting::Arrangement& layout) const {
  Fitted fitted{wall_, {}};
  std::vector<bool> used(units_.size(), false);
  std::vector<int> left;
  const auto fit = [&](int site, bool by_name) {
    Unit there;
    for (const int cell : sites_[site].cells) {
      there.blocks.push_back(layout.block[cell]);
      there.turns.push_back(layout.turn[cell]);
    }
    for (int unit = blocks_; unit < static_cast<int>(units_.size()); ++unit) {
      if (used[unit] || class_of_unit_[unit - blocks_] != sites_[site].klass) continue;
      for (const Turn turn : {Turn(), kRound}) {
        if (turn == kRound && !units_[unit].turns_round) continue;
        const Unit hung = hanging(unit, turn);
        if (hung.turns != there.turns || (by_name ? hung.blocks != there.blocks : look(hung) != look(there))) continue;
        used[unit] = true;
        fitted.layout.block[site] = unit;
        fitted.layout.turn[site] = turn;
        return true;
      }
    }
    return false;
  };
  for (int site = 0; site < static_cast<int>(sites_.size()); ++site) {
    if (!sites_[site].sewn()) {
      fitted.layout.block[site] = layout.block[sites_[site].cells.front()];
      fitted.layout.turn[site] = layout.turn[sites_[site].cells.front()];
    } else if (!fit(site, true)) {
      left.push_back(site);
    }
  }
  for (const int site : left) {
    if (!fit(site, false)) fitted.torn.push_back(site);
  }
  return fitted;
}

setting::Arrangement Sites::in_cells(const setting::Arrangement& on_sites) const {
  setting::Arrangement layout = empty_cells_;
  for (std::size_t s = 0; s < sites_.size(); ++s) {
    const Unit unit = hanging(on_sites.block[s], on_sites.turn[s]);
    for (std::size_t i = 0; i < unit.blocks.size(); ++i) {
      layout.block[sites_[s].cells[i]] = unit.blocks[i];
      layout.turn[sites_[s].cells[i]] = unit.turns[i];
    }
  }
  return layout;
}

Step Sites::in_cells(const Step& step, const setting::Arrangement& before) const {
  setting::Arrangement after = before;
  make(step, after);
  Step moves{sites_[step.a].cells.front(), sites_[step.b].cells.front(), {}, {}, {}};
  const auto lay = [&](int site) {
    const Unit unit = hanging(after.block[site], after.turn[site]);
    const Site& from = sites_[before.block[step.a] == after.block[site] ? step.a : step.b];
    const Unit was = hanging(after.block[site], before.turn[&from - sites_.data()]);
    for (std::size_t i = 0; i < unit.blocks.size(); ++i) {
      const auto old = std::find(was.blocks.begin(), was.blocks.end(), unit.blocks[i]);
      moves.whole.push_back({sites_[site].cells[i], from.cells[old - was.blocks.begin()], unit.turns[i]});
    }
  };
  lay(step.a);
  moves.turn_a = moves.whole.front().turn;
  const std::size_t of_a = moves.whole.size();
  if (!step.turns_only()) lay(step.b);
  moves.turn_b = moves.whole[step.turns_only() ? 0 : of_a].turn;
  if (of_a == 1) moves.whole.clear();
  return moves;
}

}  // namespace farflung::swap
