#include "arrange/moves.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "score/wide.hpp"

namespace farflung::arrange {
namespace {

constexpr int kWalk = 64;  // partners that a place is tried with

/// Deviates of the exponential distribution: a move is accepted where its cost is under temperature x deviate, which is
/// Metropolis' rule with the draw made first.
class Deviates {
 public:
  Deviates() {
    for (std::size_t k = 0; k < table_.size(); ++k) {
      table_[k] = -std::log((static_cast<double>(k) + 0.5) / static_cast<double>(table_.size()));
    }
    std::copy(table_.begin(), table_.end(), in_a_row_.begin());
    Rng rng({1});
    rng.shuffle(std::span<float>(in_a_row_).first(table_.size()));
    std::copy_n(in_a_row_.begin(), kWalk, in_a_row_.begin() + table_.size());
  }
  double draw(Rng& rng) const { return table_[rng.next() >> (64 - kBits)]; }

  /// As many as a walk has partners, one after another in an order by lot that begins anywhere.
  const float* stretch(Rng& rng) const { return &in_a_row_[rng.next() >> (64 - kBits)]; }

 private:
  static constexpr int kBits = 12;
  std::array<double, 1 << kBits> table_{};
  std::array<float, (1 << kBits) + kWalk> in_a_row_{};
};

const Deviates& deviates() {
  static const Deviates table;
  return table;
}

/// Which swaps may cost less than chance allows each, and change something: 1 or 0 of each.
FARFLUNG_WIDE void may_accept(const float* least, const float* deviate, float temperature, const int* looks, int own,
                              int count, std::uint8_t* may) {
  for (int k = 0; k < count; ++k) {
    may[k] = static_cast<std::uint8_t>((least[k] < temperature * deviate[k]) & (looks[k] != own));
  }
}

std::uint32_t below(std::uint32_t bits, std::size_t bound) {
  return static_cast<std::uint32_t>((static_cast<std::uint64_t>(bits) * bound) >> 32);
}

std::uint32_t high(std::uint64_t bits) { return static_cast<std::uint32_t>(bits >> 32); }
std::uint32_t low(std::uint64_t bits) { return static_cast<std::uint32_t>(bits); }

}  // namespace

Moves::Moves(score::Pricer& pricer, const Freedom& freedom, std::optional<makeup::Balance> balance, MakeUpPrice price,
             const Clearance* clearance)
    : pricer_(pricer), freedom_(freedom), clearance_(clearance), balance_(std::move(balance)), make_up_price_(price) {
  if (clearance_ != nullptr) {
    copies_.emplace(clearance_->near, pricer.model().prints);
    for (int i = 0; i < pricer.model().places; ++i) copies_->change(copies_in(pricer.held()[i].block), i, 1);
  }
  for (int i = 0; i < pricer.model().places; ++i) look_.push_back(looks(i));
  std::size_t spares = 0;
  bool turns = false;
  for (const Pool& pool : freedom.pools) {
    free_.insert(free_.end(), pool.places.begin(), pool.places.end());
    spares_.emplace_back();
    for (const int block : pool.blocks) {
      if (pricer.place_of(block) == kNone) spares_.back().push_back(block);
    }
    spares += pool.places.empty() ? 0 : spares_.back().size();
  }
  for (const std::vector<int>& forms : freedom.forms) turns |= forms.size() > 1 && !free_.empty();
  constexpr double kAll = 65536;
  constexpr double kTurns = 0.004;  // swaps turn too; most turns cost nothing, so that each is made and takes time
  const double exchanges = !freedom.decks.empty() && balance_ ? (free_.empty() ? 1.0 : 0.35) : 0;
  const double replacements =
      spares == 0 || free_.empty() ? 0 : std::min(0.25, 2.0 * static_cast<double>(spares) / free_.size());
  exchange_share_ = static_cast<std::uint32_t>(kAll * exchanges);
  replace_share_ = exchange_share_ + static_cast<std::uint32_t>((kAll - exchange_share_) * replacements);
  turn_share_ = replace_share_ + (turns ? static_cast<std::uint32_t>((kAll - replace_share_) * kTurns) : 0);
  walk_length_ = std::min(kWalk, pricer.model().places);
  const double others = turn_share_ / kAll;
  walk_share_ =
      free_.empty() ? 0 : static_cast<std::uint32_t>((1 - others) / (1 - others + others * walk_length_) * 0xffffffffu);
}

int Moves::any_form(int block, std::uint32_t bits) const {
  const std::vector<int>& forms = freedom_.forms[block];
  return forms.size() == 1 ? forms[0] : forms[below(bits, forms.size())];
}

/// Blocks of one look are no swap's: turning alone does what it would do. Where prints are dealt, looks change.
int Moves::looks(int place) const {
  return freedom_.decks.empty() ? freedom_.look[pricer_.held()[place].block] : place;
}

Moves::Kind Moves::draw_swap(std::uint64_t bits) {
  swap_.a = free_[below(high(bits), free_.size())];
  const std::vector<int>& partners = freedom_.pools[freedom_.pool_of_place[swap_.a]].places;
  swap_.b = partners[below(low(bits), partners.size())];
  if (swap_.a == swap_.b) return Kind::none;
  const Held& a = pricer_.held()[swap_.a];
  const Held& b = pricer_.held()[swap_.b];
  // The low bits of both halves are as random as the high ones that chose the places.
  swap_.form_a = any_form(b.block, high(bits) << 20);
  swap_.form_b = any_form(a.block, low(bits) << 20);
  if (freedom_.decks.empty() && freedom_.kind[a.block] == freedom_.kind[b.block] && swap_.form_a == a.form &&
      swap_.form_b == b.form) {
    return Kind::none;
  }
  return stays_clear(swap_) ? Kind::swap : Kind::none;
}

Moves::Kind Moves::draw_turn(std::uint64_t bits) {
  swap_.a = free_[below(high(bits), free_.size())];
  swap_.b = kNone;
  const Held& held = pricer_.held()[swap_.a];
  swap_.form_a = any_form(held.block, low(bits));
  return swap_.form_a == held.form ? Kind::none : Kind::turn;
}

Moves::Kind Moves::draw_replacement(std::uint64_t bits) {
  replacement_.place = free_[below(high(bits), free_.size())];
  const std::vector<int>& spares = spares_[freedom_.pool_of_place[replacement_.place]];
  if (spares.empty()) return Kind::none;
  spare_ = below(low(bits), spares.size());
  replacement_.in = {spares[spare_], any_form(spares[spare_], low(bits) << 16)};
  return stays_clear(replacement_) ? Kind::replace : Kind::none;
}

Moves::Kind Moves::draw_exchange(std::uint64_t bits) {
  const Deck& deck = freedom_.decks[below(low(bits) << 16, freedom_.decks.size())];
  exchange_.slot = deck.slot;
  exchange_.block_a = deck.blocks[below(high(bits), deck.blocks.size())];
  exchange_.block_b = deck.blocks[below(low(bits), deck.blocks.size())];
  const auto print = [&](int block) { return pricer_.piece(block).prints[deck.slot]; };
  if (print(exchange_.block_a) == print(exchange_.block_b)) return Kind::none;
  if (!balance_->keeps_apart(exchange_.block_a, exchange_.block_b, deck.slot)) return Kind::none;
  const makeup::Mix change = balance_->delta(exchange_.block_a, exchange_.block_b, deck.slot);
  make_up_cost_ = make_up_price_.meeting * change.meetings + make_up_price_.alike * change.alike;
  return Kind::exchange;
}

Moves::Kind Moves::draw(Rng& rng) {
  const std::uint64_t bits = rng.next();
  if (turn_share_ == 0) return kind_ = free_.empty() ? Kind::none : draw_swap(bits);
  const auto choice = static_cast<std::uint32_t>(rng.next() >> 48);
  return kind_ = choice < turn_share_ ? draw_other(choice, bits) : (free_.empty() ? Kind::none : draw_swap(bits));
}

/// What is no swap; `choice` below their share.
Moves::Kind Moves::draw_other(std::uint32_t choice, std::uint64_t bits) {
  if (choice < exchange_share_) return draw_exchange(bits);
  return choice < replace_share_ ? draw_replacement(bits) : draw_turn(bits);
}

int Moves::best_form(int place, int block, Rng& rng) const {
  const std::vector<int>& forms = freedom_.forms[block];
  if (forms.size() == 1) return forms[0];
  int best = kNone;
  double least = 0;
  std::uint32_t ties = 0;
  for (const int form : forms) {
    const double cost = pricer_.contacts_of(place, {block, form});
    if (best != kNone && cost > least) continue;
    if (best == kNone || cost < least) ties = 0;
    least = cost;
    if (rng.below(++ties) == 0) best = form;
  }
  return best;
}

/// Swaps two blocks, each in the form that its new neighbours like best, where that costs less than `bar`.
bool Moves::swap_at_best(int a, int b, double bar, Rng& rng) {
  if (!stays_clear(score::Swap{a, b, 0, 0})) return false;
  kind_ = Kind::swap;
  swap_ = {a, b, best_form(a, pricer_.held()[b].block, rng), best_form(b, pricer_.held()[a].block, rng)};
  if (cost() >= bar) return false;
  make();
  return true;
}

/// How many of some places in order are of a pool.
int Moves::of_pool(int pool, int first, int count) const {
  if (freedom_.pools.size() == 1 && free_.size() == look_.size()) return count;
  const auto from = freedom_.pool_of_place.begin() + first;
  return static_cast<int>(std::count(from, from + count, pool));
}

/// Tries a place with every other of its pool from `first` on. Chance draws first what each swap may cost: few can then
/// cost so little, and only those are priced to the end.
int Moves::along(int a, int first, std::span<float> least, Rng& rng, double temperature) {
  const int count = static_cast<int>(least.size());
  const int pool = freedom_.pool_of_place[a];
  const float* deviate = deviates().stretch(rng);
  std::array<std::uint8_t, kWalk> may;
  const auto look = [&](int from) {
    pricer_.least_costs(a, first + from, least.subspan(from));
    may_accept(least.data(), deviate, static_cast<float>(temperature), &look_[first], look_[a], count, may.data());
  };
  look(0);
  for (int k = 0; k < count; ++k) {
    if (may[k] == 0) continue;
    const int b = first + k;
    if (freedom_.pool_of_place[b] != pool || !swap_at_best(a, b, temperature * deviate[k], rng)) continue;
    if (k + 1 < count) look(k + 1);
  }
  return of_pool(pool, first, count);
}

int Moves::walk(std::uint64_t bits, Rng& rng, double temperature) {
  std::array<float, kWalk> least;
  const int places = pricer_.model().places;
  const int a = free_[below(high(bits), free_.size())];
  const int first = static_cast<int>(below(low(bits), places));
  const int before_end = std::min(walk_length_, places - first);
  int tried = along(a, first, {least.data(), static_cast<std::size_t>(before_end)}, rng, temperature);
  if (before_end < walk_length_) {
    tried += along(a, 0, {least.data(), static_cast<std::size_t>(walk_length_ - before_end)}, rng, temperature);
  }
  return std::max(1, tried);
}

int Moves::propose(Rng& rng, double temperature) {
  const std::uint64_t bits = rng.next();
  if (walk_share_ > 0 && (turn_share_ == 0 || static_cast<std::uint32_t>(rng.next() >> 32) < walk_share_)) {
    return walk(bits, rng, temperature);
  }
  if (turn_share_ == 0) return 1;  // nothing can move
  const std::uint32_t choice = below(high(rng.next()), turn_share_);
  kind_ = draw_other(choice, bits);
  if (kind_ != Kind::none && cost() < temperature * deviates().draw(rng)) make();
  return 1;
}

double Moves::cost() {
  switch (kind_) {
    case Kind::swap:
    case Kind::turn:
      return asked_ = pricer_.cost(swap_);
    case Kind::replace:
      return asked_ = pricer_.cost(replacement_);
    case Kind::exchange:
      asked_ = pricer_.cost(exchange_);
      return asked_ + make_up_cost_;
    case Kind::none:
      break;
  }
  return asked_ = 0;
}

score::Price Moves::price() const {
  switch (kind_) {
    case Kind::swap:
    case Kind::turn:
      return pricer_.delta(swap_);
    case Kind::replace:
      return pricer_.delta(replacement_);
    case Kind::exchange:
      return pricer_.delta(exchange_);
    case Kind::none:
      break;
  }
  return {};
}

bool Moves::stays_clear(const score::Swap& swap) const {
  if (!copies_ || swap.b == kNone) return true;
  const std::vector<Held>& held = pricer_.held();
  return copies_->stays_clear(copies_in(held[swap.a].block), swap.a, copies_in(held[swap.b].block), swap.b);
}

bool Moves::stays_clear(const score::Replacement& replacement) const {
  return !copies_ || copies_->stays_clear(copies_in(replacement.in.block), replacement.place);
}

void Moves::swap(const score::Swap& swap) {
  if (copies_ && swap.b != kNone) {
    const auto in_a = copies_in(pricer_.held()[swap.a].block);
    const auto in_b = copies_in(pricer_.held()[swap.b].block);
    copies_->change(in_a, swap.a, -1);
    copies_->change(in_b, swap.b, -1);
    copies_->change(in_b, swap.a, 1);
    copies_->change(in_a, swap.b, 1);
  }
  pricer_.apply(swap);
  look_[swap.a] = looks(swap.a);
  if (swap.b != kNone) look_[swap.b] = looks(swap.b);
}

void Moves::replace(const score::Replacement& replacement, std::size_t spare) {
  if (copies_) {
    copies_->change(copies_in(pricer_.held()[replacement.place].block), replacement.place, -1);
    copies_->change(copies_in(replacement.in.block), replacement.place, 1);
  }
  spares_[freedom_.pool_of_place[replacement.place]][spare] = pricer_.held()[replacement.place].block;
  pricer_.apply(replacement);
  look_[replacement.place] = looks(replacement.place);
}

void Moves::make() {
  spent_ += asked_;
  switch (kind_) {
    case Kind::swap:
    case Kind::turn:
      swap(swap_);
      break;
    case Kind::replace:
      replace(replacement_, spare_);
      break;
    case Kind::exchange:
      pricer_.apply(exchange_);
      balance_->apply(exchange_.block_a, exchange_.block_b, exchange_.slot);
      break;
    case Kind::none:
      break;
  }
}

}  // namespace farflung::arrange
