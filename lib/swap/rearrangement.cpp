#include "swap/rearrangement.hpp"

#include <cmath>
#include <utility>

#include "swap/step.hpp"

namespace farflung::swap {

using score::Swap;
using score::TouchSum;

Freedom freedom_of(const score::Measure& measure, const score::Model& model, const setting::Arrangement& wall) {
  Freedom freedom;
  const score::Places& places = measure.places();
  for (int i = 0; i < places.count(); ++i) {
    if (!wall.kept[places.cell[i]]) freedom.places.push_back(i);
  }
  freedom.klass = places.klass;
  const quilt::Quilt& quilt = measure.quilt();
  for (const block::Block& block : quilt.blocks) {
    freedom.forms.emplace_back();
    for (const Turn turn : quilt::turns_of(quilt, block)) {
      freedom.forms.back().push_back(model.form_of_block(static_cast<int>(freedom.forms.size()) - 1, turn));
    }
  }
  return freedom;
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
      home_(model.pieces.size(), kNone),
      place_(model.pieces.size(), kNone),
      index_of_moved_(wall_.size(), kNone),
      pairs_(model),
      contacts_(model, price) {
  for (int i = 0; i < model.places; ++i) {
    home_[held_[i].block] = place_[held_[i].block] = i;
    pairs_.add(i, pieces()[held_[i].block].parts, 1);
    if (!contacts_.empty()) contacts_.add(i, lying(held_[i]), 1);
  }
}

double Rearrangement::contact_cost(int a, Held in_a, int b, Held in_b) const {
  if (contacts_.empty()) return 0;
  double cost = contacts_.cost(a, lying(in_a)) - contacts_.cost(a, lying(held_[a]));
  if (b == kNone) return cost;
  cost += contacts_.cost(b, lying(in_b)) - contacts_.cost(b, lying(held_[b]));
  if (!contacts_.meet(a, b)) return cost;
  // Each was priced beside the other as it was: put the pair right.
  const auto between = [&](Held here, Held there) { return contacts_.between(a, lying(here), b, lying(there)); };
  return cost + between(held_[a], held_[b]) - between(in_a, held_[b]) - between(held_[a], in_b) + between(in_a, in_b);
}

double Rearrangement::cost(const Swap& move) const {
  if (move.b == kNone) return contact_cost(move.a, {held_[move.a].block, move.form_a}, kNone, {});
  const int here = held_[move.a].block;
  const int there = held_[move.b].block;
  return contact_cost(move.a, {there, move.form_a}, move.b, {here, move.form_b}) +
         pairs_.swap(move.a, move.b, pieces()[here].parts, pieces()[there].parts);
}

int Rearrangement::best_form(int place, int block) const {
  if (home_[block] == place) return wall_[place].form;
  const std::vector<int>& forms = freedom_.forms[block];
  if (forms.size() == 1 || contacts_.empty()) return forms.front();
  int best = forms.front();
  double least = contacts_.cost(place, lying({block, best}));
  for (std::size_t k = 1; k < forms.size(); ++k) {
    const double cost = contacts_.cost(place, lying({block, forms[k]}));
    if (cost < least) least = cost, best = forms[k];
  }
  return best;
}

Priced Rearrangement::best_swap(int a, int b) const {
  const int here = held_[a].block;
  const int there = held_[b].block;
  Swap move{a, b, best_form(a, there), best_form(b, here)};
  const double points = pairs_.swap(a, b, pieces()[here].parts, pieces()[there].parts);
  const auto contacts = [&](int form_a, int form_b) { return contact_cost(a, {there, form_a}, b, {here, form_b}); };
  double least = contacts(move.form_a, move.form_b);
  if (!contacts_.empty() && contacts_.meet(a, b)) {
    // Neighbours: the best turn of one depends on the other's.
    const auto choices = [&](int place, int block) {
      return home_[block] == place ? std::vector<int>{wall_[place].form} : freedom_.forms[block];
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

Priced Rearrangement::best_turn(int place) const {
  Priced best{{place, kNone, held_[place].form, 0}, 0};
  bool found = false;
  for (const int form : freedom_.forms[held_[place].block]) {
    if (form == held_[place].form) continue;
    const Swap move{place, kNone, form, 0};
    const double price = cost(move);
    if (!found || price < best.cost) best = {move, price}, found = true;
  }
  return best;
}

int Rearrangement::cycle(int place) const {
  int length = 1;
  for (int at = home_[held_[place].block]; at != place; at = home_[held_[at].block]) ++length;
  return length;
}

int Rearrangement::work_of(const Swap& move) const {
  const auto work = [&](int length, int place, int form) {
    return length > 1 ? 2 * (length - 1) : (form != wall_[place].form ? 1 : 0);
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

TouchSum Rearrangement::touch_change(int a, Held in_a, int b, Held in_b) const {
  if (contacts_.empty()) return {};
  const auto before = [&](int place) { return lying(held_[place]); };
  const auto after = [&](int place) { return lying(place == a ? in_a : (place == b ? in_b : held_[place])); };
  TouchSum sum = contacts_.touches(a, lying(in_a), after) - contacts_.touches(a, lying(held_[a]), before);
  if (b == kNone) return sum;
  sum = sum + contacts_.touches(b, lying(in_b), after) - contacts_.touches(b, lying(held_[b]), before);
  return sum - contacts_.touches_between(a, lying(in_a), b, lying(in_b)) +
         contacts_.touches_between(a, lying(held_[a]), b, lying(held_[b]));
}

void Rearrangement::note_moved(int place) {
  const bool differs = !(held_[place] == wall_[place]);
  int& index = index_of_moved_[place];
  if (differs == (index != kNone)) return;
  if (differs) {
    index = static_cast<int>(moved_.size());
    moved_.push_back(place);
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
  const Held is_a{b == kNone ? was_a.block : was_b.block, move.form_a};
  const Held is_b{was_a.block, move.form_b};
  const double price = cost(move);
  const TouchSum touch = touch_change(a, is_a, b, is_b);
  work_ += work_of(move);
  worth_.touch = worth_.touch + touch;
  worth_.F += price - price_.count * touch.count - price_.length * touch.length - price_.end * touch.ends;
  if (!contacts_.empty()) {
    contacts_.add(a, lying(was_a), -1);
    contacts_.add(a, lying(is_a), 1);
  }
  held_[a] = is_a;
  if (b != kNone) {
    if (!contacts_.empty()) {
      contacts_.add(b, lying(was_b), -1);
      contacts_.add(b, lying(is_b), 1);
    }
    held_[b] = is_b;
    place_[is_a.block] = a;
    place_[is_b.block] = b;
    pairs_.apply_swap(a, b, pieces()[was_a.block].parts, pieces()[was_b.block].parts);
    note_moved(b);
  }
  note_moved(a);
  return {a, b, was_a.form, b == kNone ? 0 : was_b.form};
}

void Rearrangement::become(const std::vector<Held>& held) {
  for (int i = 0; i < model_.places; ++i) {
    if (held_[i] == held[i]) continue;
    const int from = place_[held[i].block];
    if (from == i) {
      apply({i, kNone, held[i].form, 0});
    } else {
      apply({i, from, held[i].form, held_[i].form});
    }
  }
}

}  // namespace farflung::swap
