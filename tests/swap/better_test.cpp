#include "swap/better.hpp"

#include <functional>
#include <set>
#include <tuple>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "score/pricer.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"
#include "support/worlds.hpp"
#include "swap/best_by_trying.hpp"

namespace farflung::swap {
namespace {

using score::Measure;
using score::Score;
using setting::Arrangement;

/// Every single step from a layout, by the definition.
void for_each_step(const quilt::Quilt& quilt, const setting::Plan& plan, const Arrangement& layout,
                   const std::function<void(const Step&)>& use) {
  const auto free = [&](int c) { return layout.block[c] != kNone && !layout.kept[c]; };
  const int cells = static_cast<int>(plan.cells.size());
  for (int a = 0; a < cells; ++a) {
    if (!free(a)) continue;
    for (const Turn turn : quilt::turns_of(quilt, quilt.blocks[layout.block[a]])) {
      if (!(turn == layout.turn[a])) use({a, a, turn, turn});
    }
    for (int b = a + 1; b < cells; ++b) {
      if (!free(b) || plan.cells[a].pattern != plan.cells[b].pattern) continue;
      for (const Turn turn_a : quilt::turns_of(quilt, quilt.blocks[layout.block[b]])) {
        for (const Turn turn_b : quilt::turns_of(quilt, quilt.blocks[layout.block[a]])) use({a, b, turn_a, turn_b});
      }
    }
  }
}

Score best_of_all(const Measure& measure, int half_swaps_at_most) {
  return best_by_trying(measure, half_swaps_at_most, [&](const Arrangement& layout, int left, const TakeNext& take) {
    for_each_step(measure.quilt(), measure.plan(), layout, [&](const Step& step) {
      if (half_swaps(step) > left) return;
      Arrangement next = layout;
      make(step, next);
      take(next, half_swaps(step));
    });
  });
}

/// The best single swap, again and again, by prices that the score's own tests hold.
std::vector<Score> rival(const Measure& measure, int swaps) {
  const score::Model model = score::model_of(measure);
  std::vector<score::Held> held;
  Arrangement layout = measure.quilt().layout;
  for (const int cell : measure.places().cell) {
    const int block = layout.block[cell];
    held.push_back({block, model.form_of(measure.quilt().blocks[block].pattern, layout.turn[cell])});
  }
  score::Pricer pricer(model, held, {});
  std::vector<Score> curve;
  for (int k = 0; k < swaps; ++k) {
    score::Price best;
    Step chosen{0, 0, layout.turn[0], layout.turn[0]};
    score::Swap move;
    for_each_step(measure.quilt(), measure.plan(), layout, [&](const Step& step) {
      if (step.turns_only()) return;
      Arrangement after = layout;
      make(step, after);
      const auto form = [&](int cell) {
        return model.form_of(measure.quilt().blocks[after.block[cell]].pattern, after.turn[cell]);
      };
      const score::Swap swap{model.place_of_cell[step.a], model.place_of_cell[step.b], form(step.a), form(step.b)};
      const score::Price price = pricer.delta(swap);
      const auto order = [](const score::Price& p) { return std::make_tuple(p.touch.count, p.touch.length, p.F); };
      if (order(price) < order(best)) best = price, chosen = step, move = swap;
    });
    if (!chosen.turns_only()) {
      make(chosen, layout);
      pricer.apply(move);
    }
    curve.push_back(measure.score(layout));
  }
  return curve;
}

quilt::Quilt small(Seed seed, int rows, int columns, std::vector<block::Pattern> patterns) {
  support::Wanted wanted;
  wanted.rows = rows;
  wanted.columns = columns;
  wanted.prints = 4;
  wanted.patterns = std::move(patterns);
  return support::random_quilt(seed, wanted);
}

void expect_as_good(const Score& ours, const Score& theirs, const std::string& where) {
  EXPECT_FALSE(better(theirs, ours)) << where << ": touches " << ours.terms.touches << " against "
                                     << theirs.terms.touches << ", F " << ours.F << " against " << theirs.F;
}

TEST(BetterLayouts, OnSmallGridsNothingThatThreeSwapsReachIsBetter) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    const quilt::Quilt quilt = small(Seed{seed}, 2, 4, {support::square()});
    const Measure measure(quilt);
    const BetterReport report = better_layouts(measure, {.most = 3, .effort = 0.3});
    for (int k = 1; k <= 3; ++k) {
      expect_as_good(report.lists[k - 1].after, best_of_all(measure, 2 * k), "seed " + std::to_string(seed));
    }
  }
}

TEST(BetterLayouts, OnSmallGridsNoTurnsOnTheWayOrAloneWouldDoBetter) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    const quilt::Quilt quilt = small(Seed{seed}, 2, 2, {support::half_square()});
    const Measure measure(quilt);
    const BetterReport report = better_layouts(measure, {.most = 2, .effort = 0.3});
    for (int k = 1; k <= 2; ++k) {
      expect_as_good(report.lists[k - 1].after, best_of_all(measure, 2 * k), "seed " + std::to_string(seed));
    }
  }
}

TEST(BetterLayouts, AtEverySwapTheListIsAtLeastAsGoodAsTheBestSingleSwapAgainAndAgain) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = support::random_quilt(Seed{5}, world.wanted);
    const Measure measure(quilt);
    const BetterReport report = better_layouts(measure, {.most = 5, .effort = 0.05});
    const std::vector<Score> theirs = rival(measure, 5);
    for (std::size_t k = 0; k < theirs.size(); ++k) {
      expect_as_good(report.lists[k].after, theirs[k], world.name + ", " + std::to_string(k + 1));
    }
  }
}

TEST(BetterLayouts, EveryStepLeavesAValidLayoutAndTheScoreItSays) {
  for (const support::World& world : support::worlds()) {
    support::Wanted wanted = world.wanted;
    wanted.kept = 3;
    const quilt::Quilt quilt = support::random_quilt(Seed{6}, wanted);
    const Measure measure(quilt);
    const BetterReport report = better_layouts(measure, {.most = 4, .effort = 0.05});
    ASSERT_EQ(report.lists.size(), 4U);
    for (std::size_t k = 0; k < report.lists.size(); ++k) {
      quilt::Quilt changed = quilt;
      int work = 0;
      for (const Made& made : report.lists[k].steps) {
        make(made.step, changed.layout);
        work += half_swaps(made.step);
        EXPECT_THAT(problems_of(changed), testing::IsEmpty()) << world.name;
        EXPECT_EQ(measure.score(changed.layout).terms.touches, made.after.terms.touches);
        EXPECT_NEAR(measure.score(changed.layout).F, made.after.F, 1e-9);
        EXPECT_FALSE(made.says.empty());
      }
      EXPECT_LE(work, 2 * (static_cast<int>(k) + 1));
      EXPECT_EQ(work, report.lists[k].half_swaps);
      for (std::size_t cell = 0; cell < quilt.layout.kept.size(); ++cell) {
        if (!quilt.layout.kept[cell]) continue;
        EXPECT_EQ(changed.layout.block[cell], quilt.layout.block[cell]);
        EXPECT_EQ(changed.layout.turn[cell], quilt.layout.turn[cell]);
      }
    }
  }
}

TEST(BetterLayouts, AreTheSameOnAnyNumberOfThreads) {
  const quilt::Quilt quilt = small(Seed{3}, 4, 4, {support::half_square()});
  const Measure measure(quilt);
  const BetterReport one = better_layouts(measure, {.most = 4, .effort = 0.1, .threads = 1});
  const BetterReport three = better_layouts(measure, {.most = 4, .effort = 0.1, .threads = 3});
  for (int k = 0; k < 4; ++k) {
    ASSERT_EQ(one.lists[k].steps.size(), three.lists[k].steps.size());
    for (std::size_t s = 0; s < one.lists[k].steps.size(); ++s) {
      EXPECT_EQ(one.lists[k].steps[s].step, three.lists[k].steps[s].step);
      EXPECT_EQ(one.lists[k].steps[s].says, three.lists[k].steps[s].says);
    }
  }
}

TEST(BetterLayouts, ASewnBlockWithAnUprightPrintIsNeverTurned) {
  quilt::Quilt quilt = small(Seed{8}, 3, 3, {support::half_square()});
  quilt.prints[0].upright = true;
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    block::Block& block = quilt.blocks[quilt.layout.block[cell]];
    block.sewn = true;
    block.cut_turn = quilt.layout.turn[cell];
  }
  const Measure measure(quilt);
  const BetterReport report = better_layouts(measure, {.most = 3, .effort = 0.1});
  quilt::Quilt changed = quilt;
  for (const Made& made : report.lists.back().steps) {
    make(made.step, changed.layout);
    EXPECT_THAT(problems_of(changed), testing::IsEmpty());
  }
}

TEST(BetterLayouts, SayWhichPrintsTheyPart) {
  support::Wanted wanted;
  wanted.rows = 1;
  wanted.columns = 4;
  wanted.prints = 2;
  quilt::Quilt quilt = support::random_quilt(Seed{1}, wanted);
  quilt.prints[0].name = "Kelp";
  quilt.prints[1].name = "Foghorn";
  for (int b = 0; b < 4; ++b) quilt.blocks[b].prints = {b / 2};
  for (int cell = 0; cell < 4; ++cell) quilt.layout.block[cell] = cell;
  quilt.layout.kept = {true, false, false, true};
  const Measure measure(quilt);
  const BetterReport report = better_layouts(measure, {.most = 1});
  ASSERT_EQ(report.lists[0].steps.size(), 1U);
  EXPECT_EQ(report.lists[0].after.terms.touches, 0);
  EXPECT_THAT(report.lists[0].steps[0].says, testing::StartsWith("R1 C2 with R1 C3: parts two Kelps and two Foghorns"));
  quilt.prints[1].name = "Stripe 2";
  const BetterReport numbered = better_layouts(Measure(quilt), {.most = 1});
  EXPECT_THAT(numbered.lists[0].steps[0].says,
              testing::StartsWith("R1 C2 with R1 C3: parts two Kelps and two pieces of Stripe 2"));
}

TEST(FirstSwaps, AreTheBestSingleStepsInOrder) {
  const quilt::Quilt quilt = small(Seed{4}, 3, 3, {support::half_square()});
  const Measure measure(quilt);
  const std::vector<Made> first = first_swaps(measure, 3);
  ASSERT_EQ(first.size(), 3U);
  EXPECT_FALSE(better(first[1].after, first[0].after));
  EXPECT_FALSE(better(first[2].after, first[1].after));
  for_each_step(quilt, measure.plan(), quilt.layout, [&](const Step& step) {
    Arrangement after = quilt.layout;
    make(step, after);
    EXPECT_FALSE(better(measure.score(after), first[0].after));
  });
}

TEST(Better, TheBestFirstSwapCountsCopiesInLineAndTheClosestTwoWhereTheyAreAskedFor) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    support::Wanted wanted;
    wanted.rows = 4;
    wanted.columns = 4;
    wanted.prints = 4;
    wanted.dealt_evenly = true;
    quilt::Quilt quilt = support::random_quilt({seed}, wanted);
    quilt.goals.lines = 1;
    quilt.goals.closest = 3;
    const Measure measure(quilt);
    const std::vector<Made> first = first_swaps(measure, 1);
    ASSERT_EQ(first.size(), 1U);
    for_each_step(quilt, measure.plan(), quilt.layout, [&](const Step& step) {
      Arrangement after = quilt.layout;
      make(step, after);
      EXPECT_FALSE(better(measure.score(after), first[0].after)) << "seed " << seed;
    });
  }
}

}  // namespace
}  // namespace farflung::swap
