#include "score/pricer.hpp"

#include <gtest/gtest.h>

#include "support/oracle.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"
#include "support/running_oracle.hpp"
#include "support/worlds.hpp"

namespace farflung::score {
namespace {

using Press = block::Block::Press;

/// What single precision may make of prices up to 10: the same after the first move and the last.
constexpr double kSingle = 1e-4;

/// A quilt under random moves: the pricer beside the quilt itself, changed by hand.
class MovingQuilt {
 public:
  MovingQuilt(Seed seed, const support::Wanted& wanted, const quilt::Goals& goals)
      : given_(asked_for(seed, wanted, goals)),
        measure_(given_),
        model_(model_of(measure_)),
        pricer_(model_, held(), {0.3, 0.1, 0.2}),
        quilt_(pressed(given_, model_)),
        oracle_(quilt_),
        running_(quilt_),
        rng_(derived(seed, 1)) {}

  /// (touch, F) by definition, every pair of patches and of blocks gone through.
  Price whole_truth() { return judged(oracle_.terms(quilt_)); }

  /// The same, what the last move changed worked out anew.
  Price truth() { return judged(running_.after(quilt_, changed_)); }

  /// As the pricer sums it anew.
  double F() const { return pricer_.F(); }
  TouchSum touch() const { return pricer_.touch(); }

  /// The swaps of one place with all others: least_costs() is never more than cost(), whatever forms they take, and
  /// what blocks cost as points but for the rounding of single precision, which many moves before do not add to.
  void expect_least_costs() {
    const int a = any_place();
    std::vector<float> least(model_.places);
    pricer_.least_costs(a, 0, least);
    for (int b = 0; b < model_.places; ++b) {
      if (b == a || !may_hold(a, block_in(b)) || !may_hold(b, block_in(a))) continue;
      const double cost = pricer_.cost(Swap{a, b, any_form(block_in(b)), any_form(block_in(a))});
      ASSERT_LE(least[b], cost) << a << " with " << b;
    }
    if (given_.goals.lines != 0 || given_.goals.closest != 0) return;
    const double contacts_a = pricer_.contacts_of(a, pricer_.held()[a]);
    PairField pairs(model_);
    for (int b = 0; b < model_.places; ++b) pairs.add(b, pricer_.piece(block_in(b)).parts, 1);
    for (int b = 0; b < model_.places; ++b) {
      if (b == a) continue;
      const double contacts = contacts_a + pricer_.contacts_of(b, pricer_.held()[b]);
      const double points = pairs.swap(a, b, pricer_.piece(block_in(a)).parts, pricer_.piece(block_in(b)).parts);
      ASSERT_NEAR(least[b] + contacts, points, kSingle) << a << " with " << b;
      ASSERT_LE(least[b] + contacts, points) << a << " with " << b;
    }
  }

  bool ends_meet() const { return measure_.means().ends > 0; }

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
  /// Every pattern has its steps; blocks are pressed, pressed the other way or not yet, by lot; two prints look alike.
  static quilt::Quilt asked_for(Seed seed, support::Wanted wanted, const quilt::Goals& goals) {
    if (wanted.patterns.empty()) wanted.patterns = {support::square()};
    for (block::Pattern& pattern : wanted.patterns) pattern = support::pieced(pattern);
    quilt::Quilt quilt = support::random_quilt(seed, wanted);
    quilt.goals = goals;
    support::give_looks(quilt, derived(seed, 3));
    Rng rng(derived(seed, 2));
    for (block::Block& block : quilt.blocks) {
      const std::uint32_t way = rng.below(3);
      if (way > 0) block.press = way == 1 ? Press::drawn : Press::other;
    }
    quilt.prints[1].features = quilt.prints[0].features;
    quilt.prints[1].features.lab.L += 3;
    quilt.prints[1].features.lab.a -= 2;
    return quilt;
  }

  /// As asked for, the blocks that are not pressed yet pressed as the model has them.
  static quilt::Quilt pressed(quilt::Quilt quilt, const Model& model) {
    for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
      if (quilt.blocks[b].press) continue;
      quilt.blocks[b].press = model.ends && model.pressed_other[b] ? Press::other : Press::drawn;
    }
    return quilt;
  }

  Price judged(const support::OracleTerms& found) const {
    Terms terms;
    terms.corners = found.corners;
    terms.coverage = found.coverage;
    terms.evenness = found.evenness;
    terms.streak = found.streak;
    terms.likeness = found.likeness;
    terms.contrast = found.contrast;
    terms.gradation = found.gradation;
    terms.lines = found.lines;
    terms.closest = found.closest;
    terms.unnested = found.unnested;
    for (std::size_t p = 0; p < found.spread_sums.size(); ++p) {
      const double mean = measure_.spread_means()[p];
      if (mean > 0) terms.spread += found.spread_sums[p] / mean / measure_.spread_prints();
    }
    const int broken = given_.goals.nest_rule ? found.unnested : 0;
    return {{found.touches, found.touch_length, broken}, measure_.F(terms)};
  }

  std::vector<Held> held() const {
    std::vector<Held> all;
    for (const int cell : measure_.places().cell) {
      const int block = given_.layout.block[cell];
      all.push_back({block, model_.form_of_block(block, given_.layout.turn[cell])});
    }
    return all;
  }

  int any_of(int count) { return static_cast<int>(rng_.below(static_cast<std::uint32_t>(count))); }
  int any_place() { return any_of(model_.places); }
  int any_form(int block) {
    const std::vector<Turn>& turns = given_.patterns[given_.blocks[block].pattern].turns;
    const Turn turn = turns[any_of(static_cast<int>(turns.size()))];
    const std::vector<int> forms = model_.forms_of_block(given_.blocks[block], turn);
    return forms[any_of(static_cast<int>(forms.size()))];
  }
  bool may_hold(int place, int block) const {
    const int own = model_.pattern_of_place[place];
    return own == kNone || own == given_.blocks[block].pattern;
  }
  int block_in(int place) const { return pricer_.held()[place].block; }

  void lay(int place, int block, int form) {
    const int cell = model_.cell[place];
    quilt_.layout.block[cell] = block;
    quilt_.layout.turn[cell] = model_.forms[form].turn;
    if (model_.ends) quilt_.blocks[block].press = model_.forms[form].other ? Press::other : Press::drawn;
    changed_.push_back(cell);
  }

  template <typename Move>
  Price priced(const Move& move) {
    changed_.clear();
    const Price price = pricer_.delta(move);
    EXPECT_NEAR(pricer_.cost(move),
                price.F + 0.3 * price.touch.count + 0.1 * price.touch.length + 0.2 * price.touch.ends, 1e-12);
    return price;
  }

  Price swap() {
    Swap swap;
    do {
      swap.a = any_place();
      swap.b = any_place();
    } while (swap.a == swap.b || !may_hold(swap.a, block_in(swap.b)) || !may_hold(swap.b, block_in(swap.a)));
    swap.form_a = any_form(block_in(swap.b));
    swap.form_b = any_form(block_in(swap.a));
    const Price price = priced(swap);
    const int block_a = block_in(swap.a);
    lay(swap.a, block_in(swap.b), swap.form_a);
    lay(swap.b, block_a, swap.form_b);
    pricer_.apply(swap);
    return price;
  }

  Price turn() {
    Swap swap;
    swap.a = any_place();
    swap.form_a = any_form(block_in(swap.a));
    const Price price = priced(swap);
    lay(swap.a, block_in(swap.a), swap.form_a);
    pricer_.apply(swap);
    return price;
  }

  Price replace(int block) {
    Replacement replacement;
    do {
      replacement.place = any_place();
    } while (!may_hold(replacement.place, block));
    replacement.in = {block, any_form(block)};
    const Price price = priced(replacement);
    lay(replacement.place, block, replacement.in.form);
    pricer_.apply(replacement);
    return price;
  }

  Price exchange() {
    Exchange exchange;
    const block::Pattern* pattern = nullptr;
    do {
      exchange.block_a = any_of(static_cast<int>(quilt_.blocks.size()));
      exchange.block_b = any_of(static_cast<int>(quilt_.blocks.size()));
      pattern = &quilt_.patterns[quilt_.blocks[exchange.block_a].pattern];
      exchange.slot = any_of(static_cast<int>(pattern->slots.size()));
    } while (exchange.block_a == exchange.block_b || pattern->slots[exchange.slot].print != kNone ||
             quilt_.blocks[exchange.block_a].pattern != quilt_.blocks[exchange.block_b].pattern);
    const Price price = priced(exchange);
    for (const int block : {exchange.block_a, exchange.block_b}) {
      if (pricer_.place_of(block) != kNone) changed_.push_back(model_.cell[pricer_.place_of(block)]);
    }
    std::swap(quilt_.blocks[exchange.block_a].prints[exchange.slot],
              quilt_.blocks[exchange.block_b].prints[exchange.slot]);
    pricer_.apply(exchange);
    return price;
  }

  quilt::Quilt given_;
  Measure measure_;
  Model model_;
  Pricer pricer_;
  quilt::Quilt quilt_;  ///< as it is after the moves
  support::Oracle oracle_;
  support::RunningOracle running_;
  std::vector<int> changed_;  ///< cells that the last move changed
  Rng rng_;
};

/// What is asked for beside the terms that always count.
struct Asked {
  const char* name;
  quilt::Goals goals;
};

std::vector<Asked> goals_asked() {
  std::vector<Asked> all(5);
  all[0].name = "what is asked for always";
  all[1].name = "gradation and contrast";
  all[1].goals.gradation = 0.7;
  all[1].goals.contrast = 0.4;
  all[2].name = "lines and closest";
  all[2].goals.lines = 0.05;
  all[2].goals.closest = 0.8;
  all[3].name = "nest";
  all[3].goals.nest = 0.6;
  all[4].name = "everything, nesting as a rule, likeness by the whole print";
  all[4].goals = {0.9, 1.1, 0.8, 0.4, 0.6, 0.3, 0.5, 0.3, 0.02, 0.5, 0, true, true};
  return all;
}

class EverySetting : public testing::TestWithParam<int> {};

/// 100,000 moves in each setting, 20,000 with each goal that is off by default: 160,000 and more with every term.
TEST_P(EverySetting, PricesOfRandomMovesEqualTheDifferenceOfFullScores) {
  const support::World world = support::worlds()[GetParam()];
  constexpr int kMoves = 20'000;
  std::uint64_t seed = 1;
  for (const Asked& asked : goals_asked()) {
    SCOPED_TRACE(world.name + ", " + asked.name);
    MovingQuilt moving({seed++}, world.wanted, asked.goals);
    Price before = moving.whole_truth();
    const double first = moving.F() - before.F;  // the constant
    int broke = 0;
    for (int k = 0; k < kMoves; ++k) {
      const Price price = moving.move();
      const Price after = moving.truth();
      ASSERT_EQ(price.touch.count, after.touch.count - before.touch.count) << "move " << k;
      ASSERT_EQ(price.touch.ends, after.touch.ends - before.touch.ends) << "move " << k;
      ASSERT_NEAR(price.touch.length, after.touch.length - before.touch.length, 1e-6);
      ASSERT_NEAR(price.F, after.F - before.F, 1e-6) << "move " << k;
      broke += price.touch.ends != 0 ? 1 : 0;
      before = after;
      if (k % 200 != 0) continue;
      moving.expect_least_costs();
      const Price whole = moving.whole_truth();  // what is worked out in part is what is worked out in whole
      ASSERT_EQ(after.touch.count, whole.touch.count);
      ASSERT_EQ(after.touch.ends, whole.touch.ends);
      ASSERT_NEAR(after.touch.length, whole.touch.length, 1e-6);
      ASSERT_NEAR(after.F, whole.F, 1e-6);
      ASSERT_EQ(moving.touch().count, whole.touch.count);
      ASSERT_NEAR(moving.F() - whole.F, first, 1e-6);
    }
    EXPECT_EQ(broke > 0, asked.goals.nest_rule && moving.ends_meet());
    EXPECT_FALSE(world.wanted.sashing && moving.ends_meet()) << "sashing leaves nothing to nest";
  }
}

INSTANTIATE_TEST_SUITE_P(Pricer, EverySetting, testing::Range(0, static_cast<int>(support::worlds().size())));

/// Where kernels are worked out anew for each stretch instead of read from a table.
TEST(Pricer, NoSwapOnALargeTopCostsLessThanWhatIsSaidOfItAhead) {
  support::Wanted wanted;
  wanted.rows = 23;
  wanted.columns = 27;
  wanted.prints = 40;
  ASSERT_GT(wanted.rows * wanted.columns, Kernel::kDense);
  MovingQuilt moving({1}, wanted, {});
  for (int time = 0; time < 3; ++time) {
    moving.move();
    moving.expect_least_costs();
  }
}

}  // namespace
}  // namespace farflung::score
