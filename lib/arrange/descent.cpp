#include "arrange/descent.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <span>

#include "arrange/print_exchange.hpp"

namespace farflung::arrange {
namespace {

constexpr double kRounding = 1e-10;
constexpr int kStretch = 64;  // places that one is looked at with at once

/// One descent: knows how many touches and broken rules are left, so that a price alone says what cannot better.
class Descent {
 public:
  Descent(score::Pricer& pricer, Moves& moves, const Freedom& freedom)
      : pricer_(pricer), moves_(moves), freedom_(freedom), touch_(pricer.touch()) {}

  /// Tries everything once around the blocks of one place; whether something was made.
  bool around(int a) {
    bool made = turn(a);
    const int pool = freedom_.pool_of_place[a];
    made |= swap_with_later(a);
    for (std::size_t k = 0; k < moves_.spares(pool).size(); ++k) made |= replace(a, k);
    return made;
  }

 private:
  template <typename Move>
  bool make_if_better(const Move& move) {
    if (!moves_.stays_clear(move)) return false;
    if (touch_.count == 0 && touch_.ends == 0 && pricer_.cost(move) >= -kRounding) return false;
    const score::Price price = pricer_.delta(move);
    if (!betters(price)) return false;
    touch_ = touch_ + price.touch;
    return true;
  }

  bool turn(int a) {
    for (const int form : freedom_.forms[pricer_.held()[a].block]) {
      const score::Swap turned{a, kNone, form, 0};
      if (form == pricer_.held()[a].form || !make_if_better(turned)) continue;
      moves_.swap(turned);
      return true;
    }
    return false;
  }

  /// Tries a place with each later one of its pool.
  bool swap_with_later(int a) {
    const int places = pricer_.model().places;
    bool made = false;
    std::array<float, kStretch> least;
    for (int first = a + 1; first < places; first += kStretch) {
      const int count = std::min(kStretch, places - first);
      look(a, first, {least.data(), static_cast<std::size_t>(count)});
      for (int k = 0; k < count; ++k) {
        if (least[k] >= -kRounding) continue;
        const int b = first + k;
        if (freedom_.pool_of_place[b] != freedom_.pool_of_place[a] || is_two_turns(a, b) || !swap(a, b)) continue;
        made = true;
        if (k + 1 < count) look(a, b + 1, std::span(least).subspan(k + 1, count - k - 1));
      }
    }
    return made;
  }

  /// What swaps cost at least; a touch or a broken rule less may cost anything.
  void look(int a, int first, std::span<float> least) const {
    if (touch_.count == 0 && touch_.ends == 0) return pricer_.least_costs(a, first, least);
    std::fill(least.begin(), least.end(), -std::numeric_limits<float>::infinity());
  }

  /// Whether a swap does no more than turning one block and then the other: each alone is looked at as well.
  bool is_two_turns(int a, int b) const {
    const auto look = [&](int place) { return freedom_.look[pricer_.held()[place].block]; };
    return freedom_.decks.empty() && look(a) == look(b) && !pricer_.meet(a, b);
  }

  bool swap(int a, int b) {
    const int block_a = pricer_.held()[a].block;
    const int block_b = pricer_.held()[b].block;
    for (const int form_a : freedom_.forms[block_b]) {
      for (const int form_b : freedom_.forms[block_a]) {
        const score::Swap swapped{a, b, form_a, form_b};
        if (!make_if_better(swapped)) continue;
        moves_.swap(swapped);
        return true;
      }
    }
    return false;
  }

  bool replace(int a, std::size_t spare) {
    const int block = moves_.spares(freedom_.pool_of_place[a])[spare];
    for (const int form : freedom_.forms[block]) {
      const score::Replacement replacement{a, {block, form}};
      if (!make_if_better(replacement)) continue;
      moves_.replace(replacement, spare);
      return true;
    }
    return false;
  }

  score::Pricer& pricer_;
  Moves& moves_;
  const Freedom& freedom_;
  score::TouchSum touch_;
};

}  // namespace

bool betters(const score::Price& price) {
  if (price.touch.count != 0) return price.touch.count < 0;
  if (std::abs(price.touch.length) > kRounding) return price.touch.length < 0;
  if (price.touch.ends != 0) return price.touch.ends < 0;
  return price.F < -kRounding;
}

void go_down(score::Pricer& pricer, Moves& moves, const Freedom& freedom, Rng& rng,
             const std::function<bool()>& go_on) {
  std::vector<int> order;
  for (const Pool& pool : freedom.pools) order.insert(order.end(), pool.places.begin(), pool.places.end());
  Descent descent(pricer, moves, freedom);
  for (bool made = true; made;) {
    made = false;
    rng.shuffle(std::span<int>(order));
    for (const int place : order) {
      if (!go_on()) return;
      made |= descent.around(place);
    }
    if (!made) made = exchange_prints(pricer, moves, freedom, go_on);
  }
}

}  // namespace farflung::arrange
