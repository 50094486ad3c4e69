// What is sewn together moves whole: pairs, rows and sections among their like.
#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/patterns.hpp"
#include "support/random_quilt.hpp"
#include "swap/best_by_trying.hpp"
#include "swap/better.hpp"
#include "swap/fewest.hpp"
#include "swap/rearrangement.hpp"

namespace farflung::swap {
namespace {

using score::Measure;
using score::Score;
using setting::Arrangement;
using Stage = quilt::SewnUnit::Stage;

/// Sews cells to one another, as the file's reader does.
void sew(quilt::Quilt& quilt, Stage stage, const std::vector<int>& cells) {
  quilt.sewn_units.push_back({stage, cells, {}});
  for (const int cell : cells) {
    quilt.layout.kept[cell] = true;
    block::Block& block = quilt.blocks[quilt.layout.block[cell]];
    if (!block.sewn) block.cut_turn = quilt.layout.turn[cell];
    block.sewn = true;
  }
}

block::Pattern upside_down_or_not() {
  block::Pattern pattern = support::half_square();
  pattern.turns = {Turn(), Turn::quarters(2)};
  return pattern;
}

/// A straight quilt; the rows that are named are sewn.
quilt::Quilt with_rows_sewn(Seed seed, int rows, int columns, const std::vector<int>& sewn,
                            block::Pattern pattern = upside_down_or_not(), int prints = 4) {
  support::Wanted wanted;
  wanted.rows = rows;
  wanted.columns = columns;
  wanted.prints = prints;
  wanted.patterns = {std::move(pattern)};
  quilt::Quilt quilt = support::random_quilt(seed, wanted);
  for (const int row : sewn) {
    std::vector<int> cells;
    for (int column = 0; column < columns; ++column) cells.push_back(row * columns + column);
    sew(quilt, Stage::row, cells);
  }
  return quilt;
}

/// Cell i of a unit gets what lay in cell i of the other, or in the last but i, turned round.
void lay_unit(const Arrangement& before, const std::vector<int>& from, const std::vector<int>& to, bool round,
              Arrangement& after) {
  for (std::size_t i = 0; i < to.size(); ++i) {
    const int source = round ? from[from.size() - 1 - i] : from[i];
    after.block[to[i]] = before.block[source];
    after.turn[to[i]] = before.turn[source] + Turn::quarters(round ? 2 : 0);
  }
}

/// Every layout that one step reaches, with its work: by the definition, units of one length all alike in shape.
void for_each_next(const quilt::Quilt& quilt, const Arrangement& layout,
                   const std::function<void(Arrangement, int)>& use) {
  std::vector<std::vector<int>> units;
  std::vector<bool> sewn(layout.block.size(), false);
  for (const quilt::SewnUnit& unit : quilt.sewn_units) {
    units.push_back(unit.cells);
    for (const int cell : unit.cells) sewn[cell] = true;
  }
  for (std::size_t a = 0; a < units.size(); ++a) {
    Arrangement turned = layout;
    lay_unit(layout, units[a], units[a], true, turned);
    use(turned, 1);
    for (std::size_t b = a + 1; b < units.size(); ++b) {
      if (units[a].size() != units[b].size()) continue;
      for (int ways = 0; ways < 4; ++ways) {
        Arrangement swapped = layout;
        lay_unit(layout, units[a], units[b], (ways & 1) != 0, swapped);
        lay_unit(layout, units[b], units[a], (ways & 2) != 0, swapped);
        use(swapped, 2);
      }
    }
  }
  const std::vector<Turn> turns = quilt.patterns[0].turns;
  for (std::size_t a = 0; a < sewn.size(); ++a) {
    if (sewn[a]) continue;
    for (const Turn turn : turns) {
      Arrangement turned = layout;
      turned.turn[a] = turn;
      if (!(turned == layout)) use(turned, 1);
    }
    for (std::size_t b = a + 1; b < sewn.size(); ++b) {
      if (sewn[b]) continue;
      for (const Turn turn_a : turns) {
        for (const Turn turn_b : turns) {
          Arrangement swapped = layout;
          std::swap(swapped.block[a], swapped.block[b]);
          swapped.turn[a] = turn_a;
          swapped.turn[b] = turn_b;
          use(swapped, 2);
        }
      }
    }
  }
}

Score best_of_sewn(const Measure& measure, int half_swaps_at_most) {
  return best_by_trying(measure, half_swaps_at_most, [&](const Arrangement& layout, int, const TakeNext& take) {
    for_each_next(measure.quilt(), layout, take);
  });
}

/// Every unit's site holds, as it was or turned round, what one unit's site held before.
void expect_units_whole(const quilt::Quilt& quilt, const Arrangement& layout) {
  for (const quilt::SewnUnit& there : quilt.sewn_units) {
    bool whole = false;
    for (const quilt::SewnUnit& from : quilt.sewn_units) {
      if (from.cells.size() != there.cells.size()) continue;
      for (const bool round : {false, true}) {
        Arrangement laid = layout;
        lay_unit(quilt.layout, from.cells, there.cells, round, laid);
        whole = whole || key(laid) == key(layout);
      }
    }
    EXPECT_TRUE(whole);
  }
}

TEST(SewnUnits, NothingThatTwoSwapsReachIsBetterWhereRowsMoveWhole) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const quilt::Quilt quilt = with_rows_sewn(Seed{seed}, 4, 2, {0, 1, 3});
    const Measure measure(quilt);
    const BetterReport report = better_layouts(measure, {.most = 2, .effort = 0.3});
    for (int k = 1; k <= 2; ++k) {
      const Score best = best_of_sewn(measure, 2 * k);
      const Score& ours = report.lists[k - 1].after;
      EXPECT_FALSE(better(best, ours)) << "seed " << seed << ", " << k << ": touches " << ours.terms.touches
                                       << " against " << best.terms.touches << ", F " << ours.F << " against "
                                       << best.F;
    }
  }
}

TEST(SewnUnits, TheBestFirstSwapIsTheBestOfAllSingleSteps) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const quilt::Quilt quilt = with_rows_sewn(Seed{seed}, 4, 3, {0, 2, 3});
    const Measure measure(quilt);
    const std::vector<Made> first = first_swaps(measure, 1);
    ASSERT_EQ(first.size(), 1U);
    for_each_next(quilt, quilt.layout, [&](const Arrangement& next, int) {
      EXPECT_FALSE(better(measure.score(next), first[0].after)) << "seed " << seed;
    });
  }
}

TEST(SewnUnits, EveryStepLeavesThemWholeAndTheLayoutValidAndScoresWhatItSays) {
  int moved = 0;
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    quilt::Quilt quilt = with_rows_sewn(Seed{seed}, 6, 4, {0, 2, 5}, support::half_square());
    sew(quilt, Stage::pair, {4, 5});
    sew(quilt, Stage::pair, {12, 13});
    if (seed % 2 == 0) quilt.prints[0].upright = true;
    const Measure measure(quilt);
    const BetterReport report = better_layouts(measure, {.most = 6, .effort = 0.1});
    for (const List& list : report.lists) {
      quilt::Quilt changed = quilt;
      for (const Made& made : list.steps) {
        make(made.step, changed.layout);
        moved += made.step.whole.empty() ? 0 : 1;
        EXPECT_THAT(problems_of(changed), testing::IsEmpty());
        expect_units_whole(quilt, changed.layout);
        EXPECT_EQ(measure.score(changed.layout).terms.touches, made.after.terms.touches);
        EXPECT_NEAR(measure.score(changed.layout).F, made.after.F, 1e-9);
      }
    }
  }
  EXPECT_GT(moved, 10);
}

/// Every move's price is what the whole score changes by.
void expect_priced_exactly(const quilt::Quilt& quilt) {
  const Measure measure(quilt);
  const score::Model model = score::model_of(measure);
  const Sites sites(quilt, measure.plan());
  const Freedom freedom = freedom_of(measure, model, sites);
  Rearrangement layout(model, freedom, held_of(sites.wall(), model, sites), {});
  const Score start = measure.score(quilt.layout);
  Rng rng(Seed{1});
  Arrangement units = sites.wall();
  for (int k = 0; k < 60; ++k) {
    const auto any = [&] { return static_cast<int>(rng.below(static_cast<std::uint32_t>(freedom.klass.size()))); };
    const int a = any();
    const int b = any();
    const bool turn = a == b || freedom.klass[a] != freedom.klass[b];
    const Priced move = turn ? layout.best_turn(a) : layout.best_swap(a, b);
    layout.apply(move.move);
    for (std::size_t s = 0; s < units.block.size(); ++s) {
      const Held held = layout.held()[s];
      units.block[s] = held.block;
      units.turn[s] = sites.sites()[s].sewn() ? Turn::quarters(2 * held.form) : model.forms[held.form].turn;
    }
    const Score now = measure.score(sites.in_cells(units));
    EXPECT_NEAR(layout.worth().F, now.F - start.F, 1e-9);
    EXPECT_EQ(layout.worth().touch.count, now.terms.touches - start.terms.touches);
  }
}

TEST(SewnUnits, ArePricedExactly) {
  quilt::Quilt quilt = with_rows_sewn(Seed{3}, 5, 3, {0, 1, 4}, support::half_square());
  quilt.goals.contrast = 0.4;
  expect_priced_exactly(quilt);
}

TEST(SewnUnits, ArePricedExactlyWhereCopiesInLineAndTheClosestTwoCount) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    quilt::Quilt quilt = with_rows_sewn(Seed{seed}, 5, 4, {0, 1, 4}, support::half_square(), 5);
    for (block::Block& block : quilt.blocks) block.prints = {block.prints[0] % 3, 3 + block.prints[1] % 2};
    quilt.goals.lines = 0.07;
    quilt.goals.closest = 0.6;
    expect_priced_exactly(quilt);
  }
}

TEST(SewnUnits, KeptByHandStay) {
  quilt::Quilt quilt = with_rows_sewn(Seed{2}, 4, 3, {0, 1, 2, 3});
  quilt.sewn_units[1].kept_by_hand = {4};
  const BetterReport report = better_layouts(Measure(quilt), {.most = 3, .effort = 0.3});
  Arrangement layout = quilt.layout;
  for (const Made& made : report.lists.back().steps) make(made.step, layout);
  for (int cell = 3; cell < 6; ++cell) EXPECT_EQ(layout.block[cell], quilt.layout.block[cell]);
}

TEST(SewnUnits, AreNamedAsTheyHang) {
  quilt::Quilt quilt = with_rows_sewn(Seed{1}, 3, 2, {0, 1, 2}, support::square(), 3);
  // Kelp over Kelp in both columns; the third row would part them.
  quilt.prints[0].name = "Kelp";
  for (int cell = 0; cell < 6; ++cell) quilt.blocks[quilt.layout.block[cell]].prints = {cell < 4 ? cell % 2 : 2};
  const BetterReport report = better_layouts(Measure(quilt), {.most = 1});
  ASSERT_EQ(report.lists[0].steps.size(), 1U);
  EXPECT_THAT(report.lists[0].steps[0].says, testing::StartsWith("row 2 with row 3: parts two Kelps"));
}

TEST(SewnUnits, ThatMayNotTurnAreNeverTurned) {
  const quilt::Quilt quilt = with_rows_sewn(Seed{4}, 3, 3, {0, 1, 2}, support::square());
  const BetterReport report = better_layouts(Measure(quilt), {.most = 3});
  Arrangement layout = quilt.layout;
  for (const Made& made : report.lists.back().steps) make(made.step, layout);
  EXPECT_EQ(layout.turn, quilt.layout.turn);
}

/// What is seen in each cell.
std::vector<std::pair<int, int>> looks(const Arrangement& layout, const std::vector<int>& kinds) {
  std::vector<std::pair<int, int>> look;
  for (std::size_t c = 0; c < layout.block.size(); ++c) {
    look.emplace_back(kinds[layout.block[c]], layout.turn[c].quarters());
  }
  return look;
}

TEST(SewnUnits, ReachAnotherLayoutInTheFewestSwapsThatTryingEverythingFinds) {
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    // Two prints only: rows that look alike stand in for one another.
    const quilt::Quilt quilt = with_rows_sewn(Seed{seed}, 5, 2, {0, 1, 2, 4}, upside_down_or_not(), 2);
    Rng rng(Seed{seed + 100});
    Arrangement to = quilt.layout;
    for (int k = 0; k < 4; ++k) {
      std::vector<Arrangement> nexts;
      for_each_next(quilt, to, [&](Arrangement next, int) { nexts.push_back(std::move(next)); });
      to = nexts[rng.below(static_cast<std::uint32_t>(nexts.size()))];
    }
    const auto way = fewest_swaps(quilt, to);
    ASSERT_TRUE(way.ok()) << "seed " << seed;
    EXPECT_TRUE(way->proven);
    quilt::Quilt changed = quilt;
    for (const Step& step : way->steps) {
      make(step, changed.layout);
      EXPECT_THAT(problems_of(changed), testing::IsEmpty());
      expect_units_whole(quilt, changed.layout);
    }
    const std::vector<int> kinds = make_ups(quilt);
    EXPECT_EQ(looks(changed.layout, kinds), looks(to, kinds));

    std::map<std::vector<std::pair<int, int>>, int> reached;
    std::vector<std::vector<Arrangement>> by_work = {{quilt.layout}};
    const int ours = 2 * way->swaps + way->turns;
    int fewest = -1;
    for (int work = 0; work <= ours && fewest < 0; ++work) {
      by_work.resize(work + 3);
      const std::vector<Arrangement> front = by_work[work];
      for (const Arrangement& layout : front) {
        if (!reached.try_emplace(looks(layout, kinds), work).second) continue;
        if (looks(layout, kinds) == looks(to, kinds)) fewest = work;
        for_each_next(quilt, layout, [&](Arrangement next, int more) {
          if (!reached.contains(looks(next, kinds))) by_work[work + more].push_back(std::move(next));
        });
      }
    }
    EXPECT_EQ(ours, fewest) << "seed " << seed;
  }
}

TEST(SewnUnits, ThatAnotherLayoutTearsAreToldOf) {
  const quilt::Quilt quilt = with_rows_sewn(Seed{6}, 3, 3, {1}, support::square(), 9);
  Arrangement to = quilt.layout;
  std::swap(to.block[3], to.block[0]);
  const auto way = fewest_swaps(quilt, to);
  ASSERT_FALSE(way.ok());
  EXPECT_EQ(way.problems().front().at, "/layout/cells/1/0");
  EXPECT_THAT(way.problems().front().cause, testing::HasSubstr("sewn"));
}

TEST(SewnUnits, OnPointDiagonalRowsOfOneLengthChangePlaces) {
  support::Wanted wanted;
  wanted.kind = setting::Setting::Kind::on_point;
  wanted.rows = 3;
  wanted.columns = 3;
  wanted.prints = 3;
  wanted.patterns = {support::half_square()};
  quilt::Quilt quilt = support::random_quilt(Seed{7}, wanted);
  const setting::Plan plan = quilt::plan_of(quilt);
  // R1 C2 down to R4 C3... : two runs down to the right, one cell's diagonal apart.
  const auto run = [&](int row, int column) {
    return std::vector<int>{plan.cell_at(row, column), plan.cell_at(row + 1, column),
                            plan.cell_at(row + 2, column + 1)};
  };
  sew(quilt, Stage::row, run(0, 0));
  sew(quilt, Stage::row, run(0, 1));
  const Sites sites(quilt, plan);
  EXPECT_EQ(sites.wall().block.size(), quilt.layout.block.size() - 4);
  const int first = static_cast<int>(
      std::find_if(sites.sites().begin(), sites.sites().end(), [](const Site& site) { return site.sewn(); }) -
      sites.sites().begin());
  EXPECT_EQ(sites.sites()[first].klass, sites.sites()[first + 1].klass);
  EXPECT_TRUE(sites.units().back().turns_round);
}

}  // namespace
}  // namespace farflung::swap
