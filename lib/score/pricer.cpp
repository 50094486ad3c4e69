#include "score/pricer.hpp"

#include <algorithm>
#include <cassert>
#include <limits>
#include <map>
#include <utility>

namespace farflung::score {

Pricer::Pricer(const Model& model, std::vector<Held> held, TouchPrice touch_price)
    : model_(model),
      touch_price_(touch_price),
      held_(std::move(held)),
      place_of_block_(model.pieces.size(), kNone),
      pairs_(model),
      bounds_(model),
      contacts_(model, touch_price),
      copies_(model),
      contacts_now_(model.places, 0.0) {
  take_pieces();
  for (int i = 0; i < model.places; ++i) {
    place_of_block_[held_[i].block] = i;
    pairs_.add(i, piece(held_[i].block).parts, 1);
    if (!contacts_.empty()) contacts_.add(i, lying(held_[i]), 1);
    if (!copies_.empty()) copies_.apply({i, {}, piece(held_[i].block).parts.shares}, {});
  }
  bounds_.follow_all(pairs_);
  for (int i = 0; i < model.places; ++i) lies(i);
}

/// What lies in a place has changed: its contacts' cost has, and its neighbours'.
void Pricer::lies(int place) {
  bounds_.lies(place, piece(held_[place].block).parts, pairs_);
  if (contacts_.empty()) return;
  const auto look = [&](int at) {
    contacts_now_[at] = contacts_.cost(at, lying(held_[at]));
    bounds_.contacts(at, contacts_now_[at]);
  };
  look(place);
  contacts_.with_neighbours(place, look);
}

void Pricer::least_costs(int a, int first, std::span<float> least) const {
  if (!copies_.empty()) {  // no sums of pairs: nothing is known of them beforehand
    std::fill(least.begin(), least.end(), -std::numeric_limits<float>::infinity());
    return;
  }
  bounds_.least_costs(a, first, least);
}

void Pricer::take_pieces() {
  std::map<std::pair<int, std::vector<int>>, int> known;
  for (const Piece& piece : model_.pieces) {
    const auto [found, is_new] = known.try_emplace({piece.pattern, piece.prints}, static_cast<int>(pieces_.size()));
    if (is_new) {
      pieces_.push_back(piece);
      uses_.push_back(0);
    }
    piece_of_block_.push_back(found->second);
    ++uses_[found->second];
  }
}

/// The piece of a block that is about to become unlike the others.
Piece& Pricer::own_piece(int block) {
  int& piece = piece_of_block_[block];
  if (uses_[piece] > 1) {
    --uses_[piece];
    const Piece copy = pieces_[piece];
    pieces_.push_back(copy);
    uses_.push_back(1);
    piece = static_cast<int>(pieces_.size()) - 1;
  }
  return pieces_[piece];
}

std::vector<Piece> Pricer::pieces() const {
  std::vector<Piece> all;
  for (const int piece : piece_of_block_) all.push_back(pieces_[piece]);
  return all;
}

double Pricer::contact_cost(const Change& a, const Change& b) const {
  if (contacts_.empty()) return 0;
  double cost = 0;
  for (const Change* change : {&a, &b}) {
    if (change->place == kNone) continue;
    cost += contacts_.cost(change->place, change->is) - contacts_now_[change->place];
  }
  if (a.place == kNone || b.place == kNone || !contacts_.meet(a.place, b.place)) return cost;
  // Each was priced beside the other as it was: put the pair right.
  const auto between = [&](const Lying& in_a, const Lying& in_b) {
    return contacts_.between(a.place, in_a, b.place, in_b);
  };
  return cost + between(a.was, b.was) - between(a.is, b.was) - between(a.was, b.is) + between(a.is, b.is);
}

TouchSum Pricer::touch_change(const Change& a, const Change& b) const {
  if (contacts_.empty()) return {};
  const auto before = [&](int place) { return lying(held_[place]); };
  const auto after = [&](int place) { return place == a.place ? a.is : (place == b.place ? b.is : before(place)); };
  TouchSum sum;
  for (const Change* change : {&a, &b}) {
    if (change->place == kNone) continue;
    sum = sum + contacts_.touches(change->place, change->is, after) -
          contacts_.touches(change->place, change->was, before);
  }
  if (a.place == kNone || b.place == kNone) return sum;
  return sum - contacts_.touches_between(a.place, a.is, b.place, b.is) +
         contacts_.touches_between(a.place, a.was, b.place, b.was);
}

TouchSum Pricer::touch() const {
  TouchSum sum;
  if (contacts_.empty()) return sum;
  for (int i = 0; i < model_.places; ++i) {
    sum = sum + contacts_.touches(i, lying(held_[i]), [&](int place) {
      return place < i ? lying(held_[place]) : Lying{};  // each pair once
    });
  }
  return sum;
}

double Pricer::F() const {
  double sum = 0;
  for (int i = 0; i < model_.places; ++i) {
    const Parts& parts = piece(held_[i].block).parts;
    sum += pairs_.whole(i, parts) / 2;
    if (contacts_.empty()) continue;
    // Contacts between blocks are seen from both sides, the frame and the gradation from one.
    sum += (contacts_.cost(i, lying(held_[i])) + contacts_.alone(i, lying(held_[i]))) / 2;
  }
  if (!copies_.empty()) sum += copies_.whole();
  return sum - touch_price_.of(touch());
}

Price Pricer::price_of(double cost, TouchSum touch) const { return {touch, cost - touch_price_.of(touch)}; }

void Pricer::tell_contacts(const Change& change) {
  if (contacts_.empty() || change.place == kNone) return;
  contacts_.add(change.place, change.was, -1);
  contacts_.add(change.place, change.is, 1);
}

template <typename Use>
auto Pricer::with_changes(const Swap& swap, Use use) const {
  const Held& a = held_[swap.a];
  if (swap.b == kNone) return use(Change{swap.a, lying(a), lying({a.block, swap.form_a})}, Change{});
  const Held& b = held_[swap.b];
  return use(Change{swap.a, lying(a), lying({b.block, swap.form_a})},
             Change{swap.b, lying(b), lying({a.block, swap.form_b})});
}

template <typename Use>
auto Pricer::with_changes(const Replacement& replacement, Use use) const {
  return use(Change{replacement.place, lying(held_[replacement.place]), lying(replacement.in)}, Change{});
}

template <typename Use>
auto Pricer::with_changes(const Exchange& exchange, Use use) const {
  const auto change = [&](int block, std::vector<int>& prints, int print) {
    prints = piece(block).prints;
    prints[exchange.slot] = print;
    const int place = place_of_block_[block];
    return place == kNone ? Change{} : Change{place, lying(held_[place]), {held_[place].form, prints.data()}};
  };
  thread_local std::vector<int> prints_a, prints_b;
  const Change a = change(exchange.block_a, prints_a, piece(exchange.block_b).prints[exchange.slot]);
  const Change b = change(exchange.block_b, prints_b, piece(exchange.block_a).prints[exchange.slot]);
  return use(a, b);
}

template <typename Use>
void Pricer::with_copies(const Swap& swap, Use use) const {
  if (swap.b == kNone) return;  // a block that turns stays where it is
  const std::vector<Share>& a = piece(held_[swap.a].block).parts.shares;
  const std::vector<Share>& b = piece(held_[swap.b].block).parts.shares;
  use(CopyField::Change{swap.a, a, b}, CopyField::Change{swap.b, b, a});
}

template <typename Use>
void Pricer::with_copies(const Replacement& replacement, Use use) const {
  use(CopyField::Change{replacement.place, piece(held_[replacement.place].block).parts.shares,
                        piece(replacement.in.block).parts.shares},
      CopyField::Change{});
}

template <typename Use>
void Pricer::with_copies(const Exchange& exchange, Use use) const {
  const auto shares_with = [&](int block, int print) {
    std::vector<int> prints = piece(block).prints;
    prints[exchange.slot] = print;
    return shares_of(model_.facts[piece(block).pattern], prints);
  };
  const std::vector<Share> of_a = shares_with(exchange.block_a, piece(exchange.block_b).prints[exchange.slot]);
  const std::vector<Share> of_b = shares_with(exchange.block_b, piece(exchange.block_a).prints[exchange.slot]);
  const auto change = [&](int block, const std::vector<Share>& is) {
    return CopyField::Change{place_of_block_[block], piece(block).parts.shares, is};
  };
  use(change(exchange.block_a, of_a), change(exchange.block_b, of_b));
}

template <typename Move>
double Pricer::copies_cost(const Move& move) const {
  double cost = 0;
  if (copies_.empty()) return cost;
  with_copies(move, [&](const CopyField::Change& a, const CopyField::Change& b) { cost = copies_.cost(a, b); });
  return cost;
}

template <typename Move>
void Pricer::tell_copies(const Move& move) {
  if (copies_.empty()) return;
  with_copies(move, [&](const CopyField::Change& a, const CopyField::Change& b) { copies_.apply(a, b); });
}

double Pricer::cost(const Swap& swap) const {
  const double contacts = with_changes(swap, [&](const Change& a, const Change& b) { return contact_cost(a, b); });
  if (swap.b == kNone) return contacts;
  return contacts + copies_cost(swap) +
         pairs_.swap(swap.a, swap.b, piece(held_[swap.a].block).parts, piece(held_[swap.b].block).parts);
}

double Pricer::cost(const Replacement& replacement) const {
  const Parts& out = piece(held_[replacement.place].block).parts;
  return pairs_.replace(replacement.place, out, piece(replacement.in.block).parts) + copies_cost(replacement) +
         with_changes(replacement, [&](const Change& a, const Change& b) { return contact_cost(a, b); });
}

double Pricer::cost(const Exchange& exchange) const {
  const int pattern = piece(exchange.block_a).pattern;
  const Parts of_a = model_.part_of_slot(pattern, exchange.slot, piece(exchange.block_a).prints[exchange.slot]);
  const Parts of_b = model_.part_of_slot(pattern, exchange.slot, piece(exchange.block_b).prints[exchange.slot]);
  const int a = place_of_block_[exchange.block_a];
  const int b = place_of_block_[exchange.block_b];
  double cost = 0;
  if (a != kNone && b != kNone) {
    cost = pairs_.swap(a, b, of_a, of_b);
  } else if (a != kNone) {
    cost = pairs_.replace(a, of_a, of_b);
  } else if (b != kNone) {
    cost = pairs_.replace(b, of_b, of_a);
  }
  return cost + copies_cost(exchange) +
         with_changes(exchange, [&](const Change& x, const Change& y) { return contact_cost(x, y); });
}

Price Pricer::delta(const Swap& swap) const {
  return price_of(cost(swap), with_changes(swap, [&](const Change& a, const Change& b) { return touch_change(a, b); }));
}

Price Pricer::delta(const Replacement& replacement) const {
  return price_of(cost(replacement),
                  with_changes(replacement, [&](const Change& a, const Change& b) { return touch_change(a, b); }));
}

Price Pricer::delta(const Exchange& exchange) const {
  return price_of(cost(exchange),
                  with_changes(exchange, [&](const Change& a, const Change& b) { return touch_change(a, b); }));
}

void Pricer::apply(const Swap& swap) {
  tell_copies(swap);
  with_changes(swap, [&](const Change& a, const Change& b) {
    tell_contacts(a);
    tell_contacts(b);
  });
  if (swap.b == kNone) {
    held_[swap.a].form = swap.form_a;
    lies(swap.a);
    return;
  }
  const Parts& here = piece(held_[swap.a].block).parts;
  const Parts& there = piece(held_[swap.b].block).parts;
  pairs_.apply_swap(swap.a, swap.b, here, there);
  bounds_.follow({&here, &there}, pairs_);
  std::swap(held_[swap.a].block, held_[swap.b].block);
  held_[swap.a].form = swap.form_a;
  held_[swap.b].form = swap.form_b;
  place_of_block_[held_[swap.a].block] = swap.a;
  place_of_block_[held_[swap.b].block] = swap.b;
  lies(swap.a);
  lies(swap.b);
}

void Pricer::apply(const Replacement& replacement) {
  assert(place_of_block_[replacement.in.block] == kNone);
  tell_copies(replacement);
  with_changes(replacement, [&](const Change& a, const Change&) { tell_contacts(a); });
  Held& held = held_[replacement.place];
  const Parts& out = piece(held.block).parts;
  const Parts& in = piece(replacement.in.block).parts;
  pairs_.add(replacement.place, out, -1);
  pairs_.add(replacement.place, in, 1);
  bounds_.follow({&out, &in}, pairs_);
  place_of_block_[held.block] = kNone;
  place_of_block_[replacement.in.block] = replacement.place;
  held = replacement.in;
  lies(replacement.place);
}

void Pricer::apply(const Exchange& exchange) {
  tell_copies(exchange);
  with_changes(exchange, [&](const Change& a, const Change& b) {
    tell_contacts(a);
    tell_contacts(b);
  });
  own_piece(exchange.block_a);  // both before either is held by reference
  own_piece(exchange.block_b);
  Piece& a = own_piece(exchange.block_a);
  Piece& b = own_piece(exchange.block_b);
  for (Piece* piece : {&a, &b}) {
    const int place = place_of_block_[piece == &a ? exchange.block_a : exchange.block_b];
    if (place == kNone) continue;
    pairs_.add(place, model_.part_of_slot(a.pattern, exchange.slot, piece->prints[exchange.slot]), -1);
    pairs_.add(place, model_.part_of_slot(a.pattern, exchange.slot, (piece == &a ? b : a).prints[exchange.slot]), 1);
  }
  std::swap(a.prints[exchange.slot], b.prints[exchange.slot]);
  a.parts = model_.parts_of(a.pattern, a.prints);
  b.parts = model_.parts_of(b.pattern, b.prints);
  bounds_.follow({&a.parts, &b.parts}, pairs_);
  for (const int block : {exchange.block_a, exchange.block_b}) {
    if (place_of_block_[block] != kNone) lies(place_of_block_[block]);
  }
}

}  // namespace farflung::score
