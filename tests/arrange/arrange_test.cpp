#include "arrange/arrange.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <gtest/gtest.h>

#include "arrange/freedom.hpp"
#include "score/measure.hpp"
#include "support/every_layout.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"
#include "support/worlds.hpp"

namespace farflung::arrange {
namespace {

using support::Wanted;

Report arranged(const quilt::Quilt& quilt, const Options& options) {
  const Result<Report> report = arrange(quilt, options);
  EXPECT_TRUE(report.ok()) << (report.ok() ? "" : report.problems().front().text());
  return *report;
}

TEST(Arrange, LeavesNoTouchWherePrintsAreDealtEvenly) {
  Wanted squares;
  squares.rows = 9;
  squares.columns = 7;
  squares.prints = 12;
  squares.dealt_evenly = true;
  Wanted rails = squares;
  rails.rows = 14;
  rails.columns = 12;
  rails.prints = 24;
  rails.patterns = {support::uneven_rails()};
  rails.background = 0;
  for (const Wanted& wanted : {squares, rails}) {
    for (std::uint64_t seed = 1; seed <= 2; ++seed) {
      const Report report = arranged(support::random_quilt({seed}, wanted), {.seed = {seed}, .effort = 0.02});
      EXPECT_EQ(report.after.terms.touches, 0) << wanted.rows << " rows, seed " << seed;
      EXPECT_LT(report.after.F, 0.7 * report.before.F);
      EXPECT_TRUE(quilt::problems_of(report.quilt).empty());
    }
  }
}

TEST(Arrange, FindsTheBestOfAllLayoutsOfThreeByThree) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    Wanted wanted;
    wanted.rows = wanted.columns = 3;
    wanted.prints = 3;
    wanted.dealt_evenly = true;
    wanted.borders = seed % 2 == 0;
    const quilt::Quilt quilt = support::random_quilt({seed}, wanted);
    const score::Score best = support::best_of_all_layouts(score::Measure(quilt));
    const Report report = arranged(quilt, {.seed = {seed}, .effort = 0.03});
    EXPECT_EQ(report.after.terms.touches, best.terms.touches) << "seed " << seed;
    EXPECT_NEAR(report.after.F, best.F, 1e-9) << "seed " << seed;
  }
}

TEST(Arrange, GivesTheSameLayoutOnAnyNumberOfThreads) {
  Wanted wanted;
  wanted.patterns = {support::half_square()};
  wanted.spares = 2;
  const quilt::Quilt quilt = support::random_quilt({5}, wanted);
  for (const auto blocks : {Options::Blocks::sewn, Options::Blocks::open}) {
    const Report one = arranged(quilt, {.seed = {3}, .effort = 0.1, .blocks = blocks, .threads = 1});
    for (const int threads : {2, 4}) {
      const Report more = arranged(quilt, {.seed = {3}, .effort = 0.1, .blocks = blocks, .threads = threads});
      EXPECT_EQ(one.quilt.layout, more.quilt.layout);
      for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
        EXPECT_EQ(one.quilt.blocks[b].prints, more.quilt.blocks[b].prints);
      }
    }
    const Report other = arranged(quilt, {.seed = {4}, .effort = 0.001, .blocks = blocks, .threads = 1});
    EXPECT_NE(one.quilt.layout, other.quilt.layout);
  }
}

TEST(Arrange, KeepsEveryRuleInEverySetting) {
  for (const support::World& world : support::worlds()) {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
      SCOPED_TRACE(world.name + ", seed " + std::to_string(seed));
      Wanted wanted = world.wanted;
      wanted.kept = 3;
      const quilt::Quilt quilt = support::random_quilt({seed}, wanted);
      const Report report = arranged(quilt, {.seed = {seed}, .effort = 0.002});
      EXPECT_TRUE(quilt::problems_of(report.quilt).empty());
      for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
        if (quilt.layout.kept[cell]) {
          EXPECT_EQ(report.quilt.layout.block[cell], quilt.layout.block[cell]);
          EXPECT_EQ(report.quilt.layout.turn[cell], quilt.layout.turn[cell]);
        }
        EXPECT_EQ(report.quilt.layout.block[cell] < 0, quilt.layout.block[cell] < 0) << "a hole stays a hole";
      }
      EXPECT_FALSE(score::better(report.before, report.after));
      const score::Score anew = score::score_of(report.quilt);
      EXPECT_EQ(report.after.F, anew.F);
    }
  }
}

TEST(Arrange, TurnsSewnBlocksOnlySoThatUprightPrintsStandUpright) {
  Wanted wanted;
  wanted.patterns = {support::half_square()};
  quilt::Quilt quilt = support::random_quilt({2}, wanted);
  quilt.prints[0].upright = true;
  quilt.prints[1].upright = true;
  quilt.prints[1].features.direction = {print::Direction::Kind::stripe, 90};
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    quilt.blocks[b].sewn = b % 4 != 0;
    quilt.blocks[b].cut_turn = Turn::quarters(static_cast<int>(b % 3));
  }
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    quilt.layout.turn[cell] = quilt::turns_of(quilt, quilt.blocks[quilt.layout.block[cell]]).back();
  }
  EXPECT_TRUE(quilt::problems_of(quilt).empty()) << "what may be taken is what is allowed to lie";
  const Report report = arranged(quilt, {.effort = 0.02});
  EXPECT_TRUE(quilt::problems_of(report.quilt).empty());
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    const block::Block& block = quilt.blocks[report.quilt.layout.block[cell]];
    const auto holds = [&](int print) { return std::count(block.prints.begin(), block.prints.end(), print) > 0; };
    const int from_cut = (report.quilt.layout.turn[cell] + block.cut_turn.back()).quarters();
    if (block.sewn && holds(0)) {
      EXPECT_EQ(from_cut, 0) << "one way up";
    } else if (block.sewn && holds(1)) {
      EXPECT_EQ(from_cut % 2, 0) << "a stripe may stand on its head";
    }
  }
}

TEST(Arrange, DealsOpenBlocksEvenlyAndDifferingWithin) {
  Wanted wanted;
  wanted.rows = 6;
  wanted.columns = 5;
  wanted.prints = 8;
  wanted.patterns = {support::uneven_rails()};
  wanted.background = 7;
  const quilt::Quilt quilt = support::undealt_quilt({4}, wanted);
  const Report report = arranged(quilt, {.effort = 0.05, .blocks = Options::Blocks::open});
  EXPECT_EQ(report.after.terms.touches, 0);
  std::map<int, int> copies;
  std::map<std::set<int>, int> meetings;
  for (const block::Block& block : report.quilt.blocks) {
    EXPECT_NE(block.prints[0], block.prints[2]);
    EXPECT_EQ(block.prints[1], quilt::kNone) << "the pattern names it";
    ++copies[block.prints[0]];
    ++copies[block.prints[2]];
    ++meetings[{block.prints[0], block.prints[2]}];
  }
  EXPECT_EQ(copies.count(7), 0u) << "the background is not dealt";
  for (const auto& [print, count] : copies) EXPECT_NEAR(count, 60.0 / 7, 1);
  for (const auto& [pair, count] : meetings) EXPECT_LE(count, 2) << "30 blocks, 21 pairs";
  EXPECT_GE(meetings.size(), 18u);
}

TEST(Arrange, DealsNoPrintBeyondItsCloth) {
  Wanted wanted;
  wanted.rows = 4;
  wanted.columns = 5;
  wanted.prints = 6;
  wanted.patterns = {support::half_square()};
  const quilt::Quilt quilt = support::undealt_quilt({2}, wanted);
  const std::vector<int> most = {20, 4, 20, 2, 20, 20};
  const Report report = arranged(quilt, {.effort = 0.02, .blocks = Options::Blocks::open, .most = most});
  std::map<int, int> copies;
  for (const block::Block& block : report.quilt.blocks) ++copies[block.prints[0]], ++copies[block.prints[1]];
  EXPECT_EQ(copies[1], 4);
  EXPECT_EQ(copies[3], 2);
  for (const int print : {0, 2, 4, 5}) EXPECT_NEAR(copies[print], 34 / 4.0, 2) << "whole squares";
}

TEST(Arrange, StopsWhenToldToAndLeavesTheQuiltAsItWas) {
  const quilt::Quilt quilt = support::random_quilt({1}, {});
  int calls = 0;
  Options options;
  options.progress = [&](const Progress& progress) {
    EXPECT_GE(progress.done, 0);
    EXPECT_LE(progress.done, 1);
    return ++calls < 5;
  };
  const Report report = arranged(quilt, options);
  EXPECT_TRUE(report.stopped);
  EXPECT_EQ(calls, 5);
  EXPECT_EQ(report.quilt.layout, quilt.layout);
}

TEST(Arrange, TellsOfTheBestOfAllItsRunsToTheEnd) {
  Wanted wanted;
  wanted.rows = 6;
  wanted.columns = 5;
  wanted.prints = 6;
  wanted.dealt_evenly = true;
  wanted.patterns = {support::uneven_rails()};
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    Progress last;
    Options options{.seed = {seed}, .effort = 0.3, .threads = 1};
    options.progress = [&](const Progress& progress) {
      last = progress;
      return true;
    };
    const Report report = arranged(support::random_quilt({seed}, wanted), options);
    EXPECT_EQ(last.touches, report.after.terms.touches);
    EXPECT_NEAR(last.F, report.after.F, 0.02 * report.after.F) << "what is left is the descent's";
  }
}

TEST(Arrange, TellsTheTrueScoreWhilePrintsAreDealt) {
  Wanted wanted;
  wanted.rows = 5;
  wanted.columns = 4;
  wanted.prints = 6;
  wanted.patterns = {support::half_square()};
  for (std::uint64_t seed = 1; seed <= 2; ++seed) {
    Options options{.seed = {seed}, .effort = 0.02, .blocks = Options::Blocks::open, .threads = 1};
    Progress last;
    int looked = 0;
    options.progress = [&](const Progress& now) {
      EXPECT_GE(now.done, last.done);
      last = now;
      if (!now.laid) return true;
      ++looked;
      const score::Score truth = score::score_of(now.laid());
      EXPECT_EQ(now.touches, truth.terms.touches);
      EXPECT_NEAR(now.F, truth.F, 1e-6) << "at " << now.done;
      return true;
    };
    const Report report = arranged(support::random_quilt({seed}, wanted), options);
    EXPECT_GT(looked, 20);
    EXPECT_NEAR(last.done, 1, 1e-9);
    EXPECT_EQ(report.after.terms.touches, 0);
    EXPECT_EQ(last.touches, 0);
    EXPECT_GE(last.F, report.after.F - 1e-6) << "what is told is what is had, but for the last of the descent";
  }
}

TEST(Arrange, FillsAnEmptyLayout) {
  Wanted wanted;
  wanted.patterns = {support::pinwheel(), support::square()};
  wanted.alternate = true;
  quilt::Quilt quilt = support::random_quilt({1}, wanted);
  std::fill(quilt.layout.block.begin(), quilt.layout.block.end(), quilt::kNone);
  const Report report = arranged(quilt, {.effort = 0.01});
  EXPECT_TRUE(quilt::problems_of(report.quilt).empty());
  EXPECT_TRUE(quilt::spares(report.quilt).empty());
}

TEST(Arrange, ReachesTheProvenBoundWhereTouchesCannotBeAvoided) {
  Wanted wanted;
  wanted.rows = wanted.columns = 6;
  wanted.prints = 11;
  quilt::Quilt quilt = support::random_quilt({1}, wanted);
  for (int b = 0; b < 36; ++b) quilt.blocks[b].prints = {std::max(0, b - 25)};  // 26 copies of the first
  const Report report = arranged(quilt, {.effort = 0.2});
  EXPECT_EQ(report.bound.touches, 22);
  EXPECT_EQ(report.after.terms.touches, 22);
  EXPECT_EQ(report.bound.prints.front().print, 0);
}

TEST(Arrange, SaysWhatIsWrongWithItsOptions) {
  const quilt::Quilt quilt = support::random_quilt({1}, {});
  EXPECT_FALSE(arrange(quilt, {.effort = 0}).ok());
  EXPECT_FALSE(arrange(quilt, {.seconds = -1.0}).ok());
}

}  // namespace
}  // namespace farflung::arrange
