#include "swap/rearrangement.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "swap/step.hpp"

namespace farflung::swap {

using score::Swap;
using score::TouchSum;

Freedom freedom_of(const score::Measure& measure, const score::Model& model, const Sites& sites) {
  Freedom freedom;
  for (std::size_t s = 0; s < sites.sites().size(); ++s) {
    const Site& site = sites.sites()[s];
    if (!site.kept) freedom.sites.push_back(static_cast<int>(s));
    freedom.klass.push_back(site.klass);
    freedom.places.emplace_back();
    for (const int cell : site.cells) freedom.places.back().push_back(model.place_of_cell[cell]);
  }
  const quilt::Quilt& quilt = measure.quilt();
  freedom.blocks_hang.resize(sites.units().size());
  for (int unit = 0; unit < static_cast<int>(sites.units().size()); ++unit) {
    freedom.forms.emplace_back();
    if (unit < static_cast<int>(quilt.blocks.size())) {
      for (const Turn turn : quilt::turns_of(quilt, quilt.blocks[unit])) {
        freedom.forms.back().push_back(model.form_of_block(unit, turn));
      }
      continue;
    }
    for (int form = 0; form <= (sites.units()[unit].turns_round ? 1 : 0); ++form) {
      freedom.forms.back().push_back(form);
      const Unit hung = sites.hanging(unit, Turn::quarters(2 * form));
      freedom.blocks_hang[unit].emplace_back();
      for (std::size_t i = 0; i < hung.blocks.size(); ++i) {
        freedom.blocks_hang[unit].back().push_back(
            {hung.blocks[i], model.form_of_block(hung.blocks[i], hung.turns[i])});
      }
    }
  }
  return freedom;
}

std::vector<Held> held_of(const setting::Arrangement& on_sites, const score::Model& model, const Sites& sites) {
  std::vector<Held> held;
  for (std::size_t s = 0; s < on_sites.block.size(); ++s) {
    const Turn turn = on_sites.turn[s];
    const int unit = on_sites.block[s];
    held.push_back({unit, sites.sites()[s].sewn() ? turn.quarters() / 2 : model.form_of_block(unit, turn)});
  }
  return held;
}

bool better(const Worth& a, const Worth& b) {
  // What rounding could have made is a tie, as in score::better.
  constexpr double kTie = 1e-9;
  if (a.touch.count != b.touch.count) return a.touch.count < b.touch.count;
  if (std::abs(a.touch.length - b.touch.length) > kTie) return a.touch.length < b.touch.length;
  if (a.touch.ends != b.touch.ends) return a.touch.ends < b.touch.ends;
  return a.F < b.F - kTie;
}

Rearrangement::Rearrangement(const score::Model& model, const Freedom& freedom, std::vector<Held> wall,
                             score::TouchPrice price)
    : model_(model),
      freedom_(freedom),
      price_(price),
      wall_(std::move(wall)),
      held_(wall_),
      lies_(model.places),
      home_(freedom.forms.size(), kNone),
      site_(freedom.forms.size(), kNone),
      index_of_moved_(wall_.size(), kNone),
      pairs_(model),
      contacts_(model, price),
      copies_(model) {
  for (int s = 0; s < static_cast<int>(held_.size()); ++s) {
    home_[held_[s].block] = site_[held_[s].block] = s;
    for (std::size_t i = 0; i < freedom.places[s].size(); ++i) {
      lies_[freedom.places[s][i]] = sewn(s) ? freedom.blocks_hang[held_[s].block][held_[s].form][i] : held_[s];
    }
  }
  for (int i = 0; i < model.places; ++i) {
    pairs_.add(i, parts(lies_[i]), 1);
    if (!contacts_.empty()) contacts_.add(i, lying(lies_[i]), 1);
    if (!copies_.empty()) copies_.apply(std::array{score::CopyField::Change{i, {}, parts(lies_[i]).shares}});
  }
}

std::vector<Rearrangement::Change> Rearrangement::changes(const Swap& move) const {
  std::vector<Change> all;
  const auto lay = [&](int site, Held in) {
    const std::vector<int>& places = freedom_.places[site];
    for (std::size_t i = 0; i < places.size(); ++i) {
      const Held is = sewn(site) ? freedom_.blocks_hang[in.block][in.form][i] : in;
      all.push_back({places[i], lies_[places[i]], is});
    }
  };
  if (move.b == kNone) {
    lay(move.a, {held_[move.a].block, move.form_a});
  } else {
    lay(move.a, {held_[move.b].block, move.form_a});
    lay(move.b, {held_[move.a].block, move.form_b});
  }
  return all;
}

double Rearrangement::cost_of(const std::vector<Change>& changes) const {
  double cost = 0;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    const Change& x = changes[i];
    cost += pairs_.replace(x.place, parts(x.was), parts(x.is));
    if (!contacts_.empty()) cost += contacts_.cost(x.place, lying(x.is)) - contacts_.cost(x.place, lying(x.was));
    for (std::size_t j = 0; j < i; ++j) {
      const Change& y = changes[j];
      cost += pairs_.together(x.place, parts(x.was), parts(x.is), y.place, parts(y.was), parts(y.is));
      if (contacts_.empty() || !contacts_.meet(x.place, y.place)) continue;
      // Each was priced beside the other as it was: put the pair right.
      const auto between = [&](Held here, Held there) {
        return contacts_.between(x.place, lying(here), y.place, lying(there));
      };
      cost += between(x.was, y.was) - between(x.is, y.was) - between(x.was, y.is) + between(x.is, y.is);
    }
  }
  if (copies_.empty()) return cost;
  std::vector<score::CopyField::Change> copies;
  copies.reserve(changes.size());
  for (const Change& change : changes) copies.push_back(copies_of(change));
  return cost + copies_.cost(copies);
}

score::CopyField::Change Rearrangement::copies_of(const Change& change) const {
  return {change.place, parts(change.was).shares, parts(change.is).shares};
}

/// What copies in line and the closest two cost when the blocks of two places change places.
double Rearrangement::swap_of_copies(int a, int b) const {
  if (copies_.empty()) return 0;
  return copies_.cost(copies_of({a, lies_[a], lies_[b]}), copies_of({b, lies_[b], lies_[a]}));
}

/// `a` and `b` are places here.
double Rearrangement::contact_cost(int a, Held in_a, int b, Held in_b) const {
  if (contacts_.empty()) return 0;
  double cost = contacts_.cost(a, lying(in_a)) - contacts_.cost(a, lying(lies_[a]));
  if (b == kNone) return cost;
  cost += contacts_.cost(b, lying(in_b)) - contacts_.cost(b, lying(lies_[b]));
  if (!contacts_.meet(a, b)) return cost;
  // Each was priced beside the other as it was: put the pair right.
  const auto between = [&](Held here, Held there) { return contacts_.between(a, lying(here), b, lying(there)); };
  return cost + between(lies_[a], lies_[b]) - between(in_a, lies_[b]) - between(lies_[a], in_b) + between(in_a, in_b);
}

double Rearrangement::cost(const Swap& move) const {
  if (sewn(move.a)) return cost_of(changes(move));
  const int a = place(move.a);
  if (move.b == kNone) return contact_cost(a, {held_[move.a].block, move.form_a}, kNone, {});
  const int b = place(move.b);
  const int here = held_[move.a].block;
  const int there = held_[move.b].block;
  return contact_cost(a, {there, move.form_a}, b, {here, move.form_b}) +
         pairs_.swap(a, b, pieces()[here].parts, pieces()[there].parts) + swap_of_copies(a, b);
}

int Rearrangement::best_form(int site, int block) const {
  if (home_[block] == site) return wall_[site].form;
  const std::vector<int>& forms = freedom_.forms[block];
  if (forms.size() == 1 || contacts_.empty()) return forms.front();
  int best = forms.front();
  double least = contacts_.cost(place(site), lying({block, best}));
  for (std::size_t k = 1; k < forms.size(); ++k) {
    const double cost = contacts_.cost(place(site), lying({block, forms[k]}));
    if (cost < least) least = cost, best = forms[k];
  }
  return best;
}

Priced Rearrangement::best_swap_of_sewn(int a, int b) const {
  const auto choices = [&](int site, int unit) {
    return home_[unit] == site ? std::vector<int>{wall_[site].form} : freedom_.forms[unit];
  };
  Priced best;
  bool found = false;
  for (const int form_a : choices(a, held_[b].block)) {
    for (const int form_b : choices(b, held_[a].block)) {
      const Swap move{a, b, form_a, form_b};
      const double price = cost(move);
      if (!found || price < best.cost) best = {move, price}, found = true;
    }
  }
  return best;
}

Priced Rearrangement::best_swap(int a, int b) const {
  if (sewn(a)) return best_swap_of_sewn(a, b);
  const int here = held_[a].block;
  const int there = held_[b].block;
  const int place_a = place(a);
  const int place_b = place(b);
  Swap move{a, b, best_form(a, there), best_form(b, here)};
  const double points =
      pairs_.swap(place_a, place_b, pieces()[here].parts, pieces()[there].parts) + swap_of_copies(place_a, place_b);
  const auto contacts = [&](int form_a, int form_b) {
    return contact_cost(place_a, {there, form_a}, place_b, {here, form_b});
  };
  double least = contacts(move.form_a, move.form_b);
  if (!contacts_.empty() && contacts_.meet(place_a, place_b)) {
    // Neighbours: the best turn of one depends on the other's.
    const auto choices = [&](int site, int block) {
      return home_[block] == site ? std::vector<int>{wall_[site].form} : freedom_.forms[block];
    };
    for (const int form_a : choices(a, there)) {
      for (const int form_b : choices(b, here)) {
        const double cost = contacts(form_a, form_b);
        if (cost < least) least = cost, move = {a, b, form_a, form_b};
      }
    }
  }
  return {move, least + points};
}

Priced Rearrangement::best_turn(int site) const {
  Priced best{{site, kNone, held_[site].form, 0}, 0};
  bool found = false;
  for (const int form : freedom_.forms[held_[site].block]) {
    if (form == held_[site].form) continue;
    const Swap move{site, kNone, form, 0};
    const double price = cost(move);
    if (!found || price < best.cost) best = {move, price}, found = true;
  }
  return best;
}

int Rearrangement::cycle(int site) const {
  int length = 1;
  for (int at = home_[held_[site].block]; at != site; at = home_[held_[at].block]) ++length;
  return length;
}

int Rearrangement::work_of(const Swap& move) const {
  const auto work = [&](int length, int site, int form) {
    return length > 1 ? 2 * (length - 1) : (form != wall_[site].form ? 1 : 0);
  };
  const int a = move.a;
  if (move.b == kNone) return at_home(a) ? work(1, a, move.form_a) - work(1, a, held_[a].form) : 0;
  const int b = move.b;
  // Follow the blocks' ways home from a: if b lies on it, the swap parts the cycle, else it joins two.
  int steps_to_b = 0;
  int length = 1;
  for (int at = home_[held_[a].block]; at != a; at = home_[held_[at].block], ++length) {
    if (at == b) steps_to_b = length;
  }
  const int before_a = work(length, a, held_[a].form);
  if (steps_to_b == 0) {
    const int other = cycle(b);
    return 2 * (length + other - 1) - before_a - work(other, b, held_[b].form);
  }
  // The block in a goes to b: b's new cycle holds the places from b back to just after a.
  return work(steps_to_b, b, move.form_b) + work(length - steps_to_b, a, move.form_a) - before_a;
}

TouchSum Rearrangement::touch_change(const std::vector<Change>& changes) const {
  if (contacts_.empty()) return {};
  const auto before = [&](int place) { return lying(lies_[place]); };
  const auto after = [&](int place) {
    const auto changed =
        std::find_if(changes.begin(), changes.end(), [&](const Change& change) { return change.place == place; });
    return lying(changed == changes.end() ? lies_[place] : changed->is);
  };
  TouchSum sum;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    const Change& x = changes[i];
    sum = sum + contacts_.touches(x.place, lying(x.is), after) - contacts_.touches(x.place, lying(x.was), before);
    for (std::size_t j = 0; j < i; ++j) {
      const Change& y = changes[j];
      sum = sum - contacts_.touches_between(x.place, lying(x.is), y.place, lying(y.is)) +
            contacts_.touches_between(x.place, lying(x.was), y.place, lying(y.was));
    }
  }
  return sum;
}

void Rearrangement::note_moved(int site) {
  const bool differs = !(held_[site] == wall_[site]);
  int& index = index_of_moved_[site];
  if (differs == (index != kNone)) return;
  if (differs) {
    index = static_cast<int>(moved_.size());
    moved_.push_back(site);
    return;
  }
  moved_[index] = moved_.back();
  index_of_moved_[moved_.back()] = index;
  moved_.pop_back();
  index = kNone;
}

Swap Rearrangement::apply(const Swap& move) {
  const int a = move.a;
  const int b = move.b;
  const Held was_a = held_[a];
  const Held was_b = b == kNone ? Held{} : held_[b];
  const std::vector<Change> changed = changes(move);
  const double price = cost(move);
  const TouchSum touch = touch_change(changed);
  work_ += work_of(move);
  worth_.touch = worth_.touch + touch;
  worth_.F += price - price_.count * touch.count - price_.length * touch.length - price_.end * touch.ends;
  if (b != kNone && !sewn(a)) {
    pairs_.apply_swap(place(a), place(b), pieces()[was_a.block].parts, pieces()[was_b.block].parts);
  }
  if (!copies_.empty()) {
    std::vector<score::CopyField::Change> copies;
    copies.reserve(changed.size());
    for (const Change& change : changed) copies.push_back(copies_of(change));
    copies_.apply(copies);
  }
  for (const Change& change : changed) {
    if (sewn(a)) {
      pairs_.add(change.place, parts(change.was), -1);
      pairs_.add(change.place, parts(change.is), 1);
    }
    if (contacts_.empty()) continue;
    contacts_.add(change.place, lying(change.was), -1);
    contacts_.add(change.place, lying(change.is), 1);
  }
  for (const Change& change : changed) lies_[change.place] = change.is;
  held_[a] = {b == kNone ? was_a.block : was_b.block, move.form_a};
  if (b != kNone) {
    held_[b] = {was_a.block, move.form_b};
    site_[was_b.block] = a;
    site_[was_a.block] = b;
    note_moved(b);
  }
  note_moved(a);
  return {a, b, was_a.form, b == kNone ? 0 : was_b.form};
}

void Rearrangement::become(const std::vector<Held>& held) {
  for (int i = 0; i < static_cast<int>(held_.size()); ++i) {
    if (held_[i] == held[i]) continue;
    const int from = site_[held[i].block];
    if (from == i) {
      apply({i, kNone, held[i].form, 0});
    } else {
      apply({i, from, held[i].form, held_[i].form});
    }
  }
}

}  // namespace farflung::swap
