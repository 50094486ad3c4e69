#include "score/pricer.hpp"

#include <gtest/gtest.h>

#include "support/oracle.hpp"
#include "support/random_quilt.hpp"
#include "support/worlds.hpp"

namespace farflung::score {
namespace {

/// A quilt under random moves: the pricer beside the quilt itself, changed by hand.
class MovingQuilt {
 public:
  MovingQuilt(Seed seed, const support::Wanted& wanted)
      : quilt_(with_goals(support::random_quilt(seed, wanted), seed)),
        measure_(quilt_),
        model_(model_of(measure_)),
        pricer_(model_, held(), {0.3, 0.1}),
        oracle_(quilt_),
        rng_(derived(seed, 1)) {}

  /// (touch, F) by definition, with the measure's means.
  Price truth() {
    const support::OracleTerms found = oracle_.terms(quilt_);
    Terms terms;
    terms.corners = found.corners;
    terms.coverage = found.coverage;
    terms.evenness = found.evenness;
    terms.streak = found.streak;
    terms.likeness = found.likeness;
    terms.contrast = found.contrast;
    terms.gradation = found.gradation;
    for (std::size_t p = 0; p < found.spread_sums.size(); ++p) {
      const double mean = measure_.spread_means()[p];
      if (mean > 0) terms.spread += found.spread_sums[p] / mean / measure_.spread_prints();
    }
    return {{found.touches, found.touch_length}, measure_.F(terms)};
  }

  /// As the pricer sums it anew.
  double F() const { return pricer_.F(); }

  /// Makes one random move, and gives the price that was asked for it.
  Price move() {
    const int kind = static_cast<int>(rng_.below(10));
    const std::vector<int> spare = quilt::spares(quilt_);
    if (kind == 0) return exchange();
    if (kind <= 2 && !spare.empty()) return replace(spare[rng_.below(static_cast<std::uint32_t>(spare.size()))]);
    if (kind <= 4) return turn();
    return swap();
  }

 private:
  /// Every other quilt asks for the goals that are off by default too.
  static quilt::Quilt with_goals(quilt::Quilt quilt, Seed seed) {
    if (seed.value % 2 == 0) quilt.goals.gradation = 0.7;
    if (seed.value % 2 == 0) quilt.goals.contrast = 0.4;
    return quilt;
  }

  std::vector<Held> held() const {
    std::vector<Held> all;
    for (const int cell : measure_.places().cell) {
      const int block = quilt_.layout.block[cell];
      all.push_back({block, model_.form_of(quilt_.blocks[block].pattern, quilt_.layout.turn[cell])});
    }
    return all;
  }

  int any_place() { return static_cast<int>(rng_.below(static_cast<std::uint32_t>(model_.places))); }
  int any_form(int pattern) {
    const auto& forms = model_.forms_of[pattern];
    return forms[rng_.below(static_cast<std::uint32_t>(forms.size()))];
  }
  bool may_hold(int place, int pattern) const {
    return model_.pattern_of_place[place] == kNone || model_.pattern_of_place[place] == pattern;
  }
  int pattern_in(int place) const { return model_.pieces[pricer_.held()[place].block].pattern; }
  void lay(int place, int block, int form) {
    quilt_.layout.block[model_.cell[place]] = block;
    quilt_.layout.turn[model_.cell[place]] = model_.forms[form].turn;
  }

  Price swap() {
    Swap swap;
    do {
      swap.a = any_place();
      swap.b = any_place();
    } while (swap.a == swap.b || !may_hold(swap.a, pattern_in(swap.b)) || !may_hold(swap.b, pattern_in(swap.a)));
    swap.form_a = any_form(pattern_in(swap.b));
    swap.form_b = any_form(pattern_in(swap.a));
    const Price price = pricer_.delta(swap);
    EXPECT_NEAR(pricer_.cost(swap), price.F + 0.3 * price.touch.count + 0.1 * price.touch.length, 1e-12);
    const int block_a = pricer_.held()[swap.a].block;
    lay(swap.a, pricer_.held()[swap.b].block, swap.form_a);
    lay(swap.b, block_a, swap.form_b);
    pricer_.apply(swap);
    return price;
  }

  Price turn() {
    Swap swap;
    swap.a = any_place();
    swap.form_a = any_form(pattern_in(swap.a));
    const Price price = pricer_.delta(swap);
    lay(swap.a, pricer_.held()[swap.a].block, swap.form_a);
    pricer_.apply(swap);
    return price;
  }

  Price replace(int block) {
    Replacement replacement;
    do {
      replacement.place = any_place();
    } while (!may_hold(replacement.place, model_.pieces[block].pattern));
    replacement.in = {block, any_form(model_.pieces[block].pattern)};
    const Price price = pricer_.delta(replacement);
    lay(replacement.place, block, replacement.in.form);
    pricer_.apply(replacement);
    return price;
  }

  Price exchange() {
    Exchange exchange;
    const block::Pattern* pattern = nullptr;
    do {
      exchange.block_a = static_cast<int>(rng_.below(static_cast<std::uint32_t>(quilt_.blocks.size())));
      exchange.block_b = static_cast<int>(rng_.below(static_cast<std::uint32_t>(quilt_.blocks.size())));
      pattern = &quilt_.patterns[quilt_.blocks[exchange.block_a].pattern];
      exchange.slot = static_cast<int>(rng_.below(static_cast<std::uint32_t>(pattern->slots.size())));
    } while (exchange.block_a == exchange.block_b || pattern->slots[exchange.slot].print != kNone ||
             quilt_.blocks[exchange.block_a].pattern != quilt_.blocks[exchange.block_b].pattern);
    const Price price = pricer_.delta(exchange);
    std::swap(quilt_.blocks[exchange.block_a].prints[exchange.slot],
              quilt_.blocks[exchange.block_b].prints[exchange.slot]);
    pricer_.apply(exchange);
    return price;
  }

  quilt::Quilt quilt_;
  Measure measure_;
  Model model_;
  Pricer pricer_;
  support::Oracle oracle_;
  Rng rng_;
};

class EverySetting : public testing::TestWithParam<int> {};

TEST_P(EverySetting, PricesOfRandomMovesEqualTheDifferenceOfFullScores) {
  const support::World world = support::worlds()[GetParam()];
  SCOPED_TRACE(world.name);
  constexpr int kQuilts = 5;
  constexpr int kMoves = 2'500;  // times the quilts and the eight worlds: 100,000
  for (std::uint64_t seed = 1; seed <= kQuilts; ++seed) {
    MovingQuilt moving({seed}, world.wanted);
    Price before = moving.truth();
    const double first = moving.F() - before.F;  // the constant
    for (int k = 0; k < kMoves; ++k) {
      const Price price = moving.move();
      const Price after = moving.truth();
      ASSERT_EQ(price.touch.count, after.touch.count - before.touch.count) << "seed " << seed << ", move " << k;
      ASSERT_NEAR(price.touch.length, after.touch.length - before.touch.length, 1e-6);
      ASSERT_NEAR(price.F, after.F - before.F, 1e-6) << "seed " << seed << ", move " << k;
      before = after;
      if (k % 100 == 0) {
        EXPECT_NEAR(moving.F() - moving.truth().F, first, 1e-6);
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Pricer, EverySetting, testing::Range(0, 8));

}  // namespace
}  // namespace farflung::score
