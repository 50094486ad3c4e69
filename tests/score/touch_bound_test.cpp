#include "score/touch_bound.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "base/rng.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"
#include "support/worlds.hpp"

namespace farflung::score {
namespace {

TurnsOfBlocks all_turns(const quilt::Quilt& quilt) {
  TurnsOfBlocks turns;
  for (const block::Block& block : quilt.blocks) turns.push_back(quilt.patterns[block.pattern].turns);
  return turns;
}

TouchBound bound_of(const quilt::Quilt& quilt) { return touch_bound(Measure(quilt), quilt.layout, all_turns(quilt)); }

/// Squares: so many copies of print 0, every other block a print of its own.
quilt::Quilt crowded(int rows, int columns, int copies) {
  support::Wanted wanted;
  wanted.rows = rows;
  wanted.columns = columns;
  wanted.prints = rows * columns - copies + 1;
  quilt::Quilt quilt = support::random_quilt({1}, wanted);
  for (int b = 0; b < rows * columns; ++b) quilt.blocks[b].prints = {std::max(0, b - copies + 1)};
  return quilt;
}

int fewest_touches_by_exhaustion(int rows, int columns, int copies) {
  int fewest = 1000;
  const int n = rows * columns;
  for (unsigned set = 0; set < (1u << n); ++set) {
    if (__builtin_popcount(set) != copies) continue;
    int touches = 0;
    for (int i = 0; i < n; ++i) {
      if ((set >> i & 1) == 0) continue;
      if (i % columns + 1 < columns && (set >> (i + 1) & 1) != 0) ++touches;
      if (i + columns < n && (set >> (i + columns) & 1) != 0) ++touches;
    }
    fewest = std::min(fewest, touches);
  }
  return fewest;
}

TEST(TouchBound, IsTheFewestTouchesOfOneCrowdedPrintOnEveryGridUpToFourByFour) {
  for (int rows = 1; rows <= 4; ++rows) {
    for (int columns = 2; columns <= 4; ++columns) {
      for (int copies = 1; copies <= rows * columns; ++copies) {
        const TouchBound bound = bound_of(crowded(rows, columns, copies));
        EXPECT_EQ(bound.touches, fewest_touches_by_exhaustion(rows, columns, copies))
            << copies << " on " << rows << " x " << columns;
        if (bound.touches == 0) continue;
        EXPECT_EQ(bound.prints.front().most_apart, (rows * columns + 1) / 2);
        EXPECT_EQ(bound.prints.front().cause, Cause::crowded);
      }
    }
  }
}

TEST(TouchBound, KnowsTheTwentyTwoTouchesOfTwentySixCopiesOnSixBySix) {
  const TouchBound bound = bound_of(crowded(6, 6, 26));
  EXPECT_EQ(bound.touches, 22);
  EXPECT_EQ(bound.prints.front().most_apart, 18);
}

TEST(TouchBound, StaysValidOnWideTopsThatAreCutIntoStrips) {
  const TouchBound bound = bound_of(crowded(14, 14, 120));
  EXPECT_GE(bound.touches, 10);
  EXPECT_LE(bound.touches, 2 * (120 - 98) * 2);
}

TEST(TouchBound, IsNeverAboveWhatALayoutHasInAnySetting) {
  for (const support::World& world : support::worlds()) {
    support::Wanted wanted = world.wanted;
    wanted.prints = 3;
    wanted.kept = 4;
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
      quilt::Quilt quilt = support::random_quilt({seed}, wanted);
      const Measure measure(quilt);
      const int bound = touch_bound(measure, quilt.layout, all_turns(quilt)).touches;
      EXPECT_LE(bound, measure.terms(quilt.layout).touches) << world.name << ", seed " << seed;
    }
  }
}

TEST(TouchBound, NamesKeptCellsThatForceATouch) {
  quilt::Quilt quilt = crowded(3, 3, 2);
  for (int cell = 0; cell < 9; ++cell) quilt.layout.block[cell] = cell;
  quilt.layout.kept[0] = quilt.layout.kept[1] = true;
  const TouchBound bound = bound_of(quilt);
  ASSERT_EQ(bound.prints.size(), 1u);
  EXPECT_EQ(bound.touches, 1);
  EXPECT_EQ(bound.prints[0].cause, Cause::kept);
}

TEST(TouchBound, NamesTurnsThatForceATouch) {
  quilt::Quilt quilt = support::quilt_of_one_pattern({1}, support::half_square(), 1, 2, 3);
  quilt.blocks[0].prints = {1, 0};
  quilt.blocks[1].prints = {0, 2};
  EXPECT_EQ(bound_of(quilt).touches, 0);
  quilt.patterns[0].turns = {Turn(), Turn::quarters(2)};
  const Measure measure(quilt);
  // Print 0 looks right in the one and left in the other, and half a turn of both changes nothing.
  const TouchBound bound = touch_bound(measure, quilt.layout, {{Turn()}, {Turn()}});
  EXPECT_LE(bound.touches, 1);
  for (const PrintBound& of_print : bound.prints) EXPECT_EQ(of_print.cause, Cause::turns);
}

/// Rails sewn for one turn each; so many of them hold print 0, `alike`: all in the same slot, sewn for the same turn.
quilt::Quilt sewn_rails(Rng& rng, int rows, int columns, int copies, bool alike) {
  support::Wanted wanted;
  wanted.rows = rows;
  wanted.columns = columns;
  wanted.prints = 3 * rows * columns + 1;
  wanted.patterns = {support::plain_rails()};
  wanted.patterns[0].turns = {Turn(), Turn::quarters(1), Turn::quarters(2), Turn::quarters(3)};
  quilt::Quilt quilt = support::random_quilt({1}, wanted);
  const int slot = static_cast<int>(rng.below(3));
  const Turn turn = Turn::quarters(static_cast<int>(rng.below(4)));
  for (int b = 0; b < rows * columns; ++b) {
    block::Block& block = quilt.blocks[b];
    block.prints = {3 * b + 1, 3 * b + 2, 3 * b + 3};
    block.cut_turn = alike ? turn : Turn::quarters(static_cast<int>(rng.below(4)));
    if (b < copies) block.prints[alike ? slot : rng.below(3)] = 0;
  }
  return quilt;
}

/// Every block in every place, each in the turn that it is sewn for.
int fewest_touches_of_all_layouts(const quilt::Quilt& quilt) {
  const Measure measure(quilt);
  setting::Arrangement layout = quilt.layout;
  std::sort(layout.block.begin(), layout.block.end());
  int fewest = 1000;
  do {
    for (std::size_t cell = 0; cell < layout.block.size(); ++cell) {
      layout.turn[cell] = quilt.blocks[layout.block[cell]].cut_turn;
    }
    fewest = std::min(fewest, measure.terms(layout).touches);
  } while (std::next_permutation(layout.block.begin(), layout.block.end()));
  return fewest;
}

TEST(TouchBound, HoldsForEveryLayoutOfBlocksSewnForOneTurnAndIsReachedWhereTheyAreAlike) {
  int forced = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng({seed});
    const bool alike = seed % 2 == 0;
    const auto [rows, columns] = std::vector<std::pair<int, int>>{{2, 2}, {1, 5}, {2, 3}}[rng.below(3)];
    const int copies = rows * columns - static_cast<int>(rng.below(3));
    const quilt::Quilt quilt = sewn_rails(rng, rows, columns, copies, alike);
    TurnsOfBlocks turns;
    for (const block::Block& block : quilt.blocks) turns.push_back({block.cut_turn});
    const TouchBound bound = touch_bound(Measure(quilt), quilt.layout, turns);
    const int fewest = fewest_touches_of_all_layouts(quilt);
    EXPECT_LE(bound.touches, fewest);
    if (alike) {
      EXPECT_EQ(bound.touches, fewest);
    }
    if (bound_of(quilt).touches < bound.touches) {
      EXPECT_EQ(bound.prints.front().cause, Cause::turns);
      ++forced;
    }
  }
  EXPECT_GT(forced, 10);
}

TEST(TouchBound, NamesThePatternsCellsThatForceATouch) {
  support::Wanted wanted;  // rows of squares and rows of nine patches; print 0 only in squares
  wanted.rows = 4;
  wanted.columns = 4;
  wanted.prints = 20;
  wanted.patterns = {support::square(), support::nine_patch()};
  wanted.alternate = true;
  quilt::Quilt quilt = support::random_quilt({1}, wanted);
  quilt.setting.alternate = {{0}, {1}};
  std::vector<int> squares, nines;
  for (int b = 0; b < 16; ++b) (quilt.blocks[b].pattern == 0 ? squares : nines).push_back(b);
  ASSERT_EQ(squares.size(), 8u);
  for (int k = 0; k < 8; ++k) {
    quilt.layout.block[(k / 4) * 8 + k % 4] = squares[k];
    quilt.layout.block[(k / 4) * 8 + 4 + k % 4] = nines[k];
    quilt.blocks[squares[k]].prints = {k < 6 ? 0 : 1};
    quilt.blocks[nines[k]].prints = {2 + k, 10 + k};
  }
  const TouchBound bound = bound_of(quilt);
  ASSERT_EQ(bound.prints.size(), 1u);
  EXPECT_EQ(bound.touches, 2 * 1 + 0);  // three of four in each row: one touch in each
  EXPECT_EQ(bound.prints[0].cause, Cause::patterns);
}

}  // namespace
}  // namespace farflung::score
