#include "arrange/freedom.hpp"

#include <gtest/gtest.h>

#include "arrange/arrange.hpp"
#include "arrange/held.hpp"
#include "score/measure.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::arrange {
namespace {

/// Six by six blocks of two slots in two prints, every other block with the prints the other way about.
quilt::Quilt of_two_prints(const block::Pattern& pattern) {
  quilt::Quilt quilt = support::quilt_of_one_pattern({5}, pattern, 6, 6, 2);
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    const int first = static_cast<int>(b % 2);
    quilt.blocks[b].prints = {first, 1 - first};
  }
  return quilt;
}

Freedom freedom_in(const quilt::Quilt& quilt) {
  const score::Measure measure(quilt);
  return freedom_of(quilt, measure, score::model_of(measure), false);
}

TEST(Freedom, TwoTrianglesHaveOneLookWhicheverSlotEachPrintIsIn) {
  const Freedom freedom = freedom_in(of_two_prints(support::half_square()));
  EXPECT_NE(freedom.kind[0], freedom.kind[1]);
  EXPECT_EQ(freedom.look[0], freedom.look[1]);
}

TEST(Freedom, SlotsThatNoTurnBringsUponEachOtherGiveLooksOfTheirOwn) {
  quilt::Quilt quilt = of_two_prints(support::half_square());
  quilt.patterns[0].turns = {Turn()};
  EXPECT_NE(freedom_in(quilt).look[0], freedom_in(quilt).look[1]);
}

TEST(Freedom, BlocksThatAllHoldEveryPrintHaveNothingToExchange) {
  const auto decks_in = [](quilt::Quilt quilt) {
    const score::Measure measure(quilt);
    return freedom_of(quilt, measure, score::model_of(measure), true).decks.size();
  };
  quilt::Quilt quilt = of_two_prints(support::half_square());
  EXPECT_EQ(decks_in(quilt), 0U);
  quilt.prints.push_back(quilt.prints[0]);
  quilt.prints.back().id = "P03";
  quilt.blocks[0].prints = {2, 1};
  EXPECT_EQ(decks_in(quilt), 2U);
}

TEST(Freedom, LayoutsAreCountedByWhatCanBeSeen) {
  const auto layouts_of = [](const quilt::Quilt& quilt) {
    const score::Measure measure(quilt);
    return layouts_at_most(freedom_of(quilt, measure, score::model_of(measure), false), measure);
  };
  quilt::Quilt quilt = support::quilt_of_one_pattern({5}, support::half_square(), 1, 3, 3);
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) quilt.blocks[b].prints = {0, 1};
  EXPECT_EQ(layouts_of(quilt), 4 * 4 * 4) << "each block turns, which block is where shows nowhere";
  quilt.patterns[0].turns = {Turn()};
  EXPECT_EQ(layouts_of(quilt), 1);
  quilt.blocks[0].prints = {0, 2};
  EXPECT_EQ(layouts_of(quilt), 3 * 2 * 1);
  quilt.layout.kept.assign(quilt.layout.kept.size(), true);
  EXPECT_EQ(layouts_of(quilt), 1);
}

TEST(Freedom, AQuiltOfWhichLittleIsLeftToChooseTakesNoTime) {
  const quilt::Quilt quilt = support::quilt_of_one_pattern({5}, support::half_square(), 1, 2, 2);
  Options options;
  options.effort = 1e6;  // days, were it all spent
  EXPECT_TRUE(arrange(quilt, options).ok());
}

TEST(Freedom, TurningAloneClearsAQuiltOfTwoPrints) {
  const quilt::Quilt quilt = of_two_prints(support::half_square());
  Options options;
  options.effort = 0.2;
  const Result<Report> report = arrange(quilt, options);
  ASSERT_TRUE(report);
  EXPECT_EQ(report->after.terms.touches, 0);
}

TEST(Freedom, BlocksThatCanAllShowTheSameAreLaidOneWay) {
  const quilt::Quilt quilt = of_two_prints(support::half_square());
  const score::Measure measure(quilt);
  const score::Model model = score::model_of(measure);
  const Freedom freedom = freedom_of(quilt, measure, model, false);
  const auto layouts = all_one_way(freedom, held_in(quilt, model));
  ASSERT_EQ(layouts.size(), 4U);
  for (const std::vector<Held>& layout : layouts) {
    setting::Arrangement laid = quilt.layout;
    lay(layout, model, laid);
    EXPECT_EQ(laid.block, quilt.layout.block);
    EXPECT_EQ(measure.score(laid).terms.touches, 0);
    for (std::size_t place = 0; place < layout.size(); ++place) {
      const bool other_way_about = quilt.blocks[layout[place].block].prints != quilt.blocks[layout[0].block].prints;
      const int apart = model.forms[layout[place].form].turn.quarters() - model.forms[layout[0].form].turn.quarters();
      EXPECT_EQ((apart + 4) % 4, other_way_about ? 2 : 0);
    }
  }
}

TEST(Freedom, NoRowIsTurnedAboutWhereLayingAllOneWayIsAsGood) {
  for (const std::uint64_t seed : {1, 2, 3}) {
    const quilt::Quilt quilt = of_two_prints(support::half_square());
    Options options;
    options.effort = 0.2;
    options.seed = {seed};
    const Result<Report> report = arrange(quilt, options);
    ASSERT_TRUE(report);
    const auto look = [&](std::size_t cell) {
      const quilt::Quilt& laid = report->quilt;
      const bool other_way_about = laid.blocks[laid.layout.block[cell]].prints[0] != 0;
      return (laid.layout.turn[cell].quarters() + (other_way_about ? 2 : 0)) % 4;
    };
    for (std::size_t cell = 1; cell < quilt.layout.block.size(); ++cell) EXPECT_EQ(look(cell), look(0)) << cell;
  }
}

TEST(Freedom, WhatIsKeptStaysAsItLiesWhereAllElseIsLaidOneWay) {
  quilt::Quilt quilt = of_two_prints(support::half_square());
  quilt.layout.kept[7] = true;
  const score::Measure measure(quilt);
  const score::Model model = score::model_of(measure);
  const std::vector<Held> held = held_in(quilt, model);
  for (const std::vector<Held>& layout : all_one_way(freedom_of(quilt, measure, model, false), held)) {
    EXPECT_EQ(layout[7].form, held[7].form);
  }
}

TEST(Freedom, BlocksThatDifferAreNotLaidOneWay) {
  quilt::Quilt quilt = of_two_prints(support::half_square());
  quilt.prints.push_back(quilt.prints[0]);
  quilt.prints.back().id = "P03";
  quilt.blocks[5].prints = {2, 1};
  const score::Measure measure(quilt);
  const score::Model model = score::model_of(measure);
  EXPECT_TRUE(all_one_way(freedom_of(quilt, measure, model, false), held_in(quilt, model)).empty());
}

TEST(Freedom, ALargeQuiltOfTwoPrintsIsClearedByLayingItsBlocksOneWay) {
  quilt::Quilt quilt = support::quilt_of_one_pattern({5}, support::half_square(), 18, 16, 2);
  for (block::Block& block : quilt.blocks) block.prints = {0, 1};
  Options options;
  options.effort = 0.01;
  const Result<Report> report = arrange(quilt, options);
  ASSERT_TRUE(report);
  EXPECT_EQ(report->after.terms.touches, 0);
}

TEST(Freedom, WhereSeamsAreToNestEachKindHasItsOwnLook) {
  quilt::Quilt quilt = of_two_prints(support::pieced(support::half_square()));
  quilt.goals.nest = 1;
  const Freedom freedom = freedom_in(quilt);
  EXPECT_EQ(freedom.look, freedom.kind);
}

}  // namespace
}  // namespace farflung::arrange
