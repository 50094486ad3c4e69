#include "swap/by_hand.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::swap {
namespace {

using setting::Arrangement;

/// Four rows of three half-square blocks; the second row and a pair in the third are sewn.
quilt::Quilt quilt_with_sewn_row() {
  support::Wanted wanted;
  wanted.rows = 4;
  wanted.columns = 3;
  wanted.patterns = {support::half_square()};
  quilt::Quilt quilt = support::random_quilt(Seed{1}, wanted);
  quilt.sewn_units = {{quilt::SewnUnit::Stage::row, {3, 4, 5}, {}}, {quilt::SewnUnit::Stage::pair, {6, 7}, {}}};
  for (int cell = 3; cell < 8; ++cell) quilt.layout.kept[cell] = true;
  return quilt;
}

quilt::Quilt exchanged(quilt::Quilt quilt, int a, int b) {
  const Result<Step> step = exchange(quilt, a, b);
  EXPECT_TRUE(step.ok());
  if (step.ok()) carry_out(*step, quilt);
  EXPECT_THAT(problems_of(quilt), testing::IsEmpty());
  return quilt;
}

TEST(ExchangeByHand, ABlockAloneChangesPlacesWithAnother) {
  const quilt::Quilt before = quilt_with_sewn_row();
  const quilt::Quilt after = exchanged(before, 0, 11);
  EXPECT_EQ(after.layout.block[0], before.layout.block[11]);
  EXPECT_EQ(after.layout.turn[11], before.layout.turn[0]);
  EXPECT_EQ(after.layout.kept, before.layout.kept);
}

TEST(ExchangeByHand, ASewnRowGoesWholeAndLooseBlocksComeBackOneByOne) {
  const quilt::Quilt before = quilt_with_sewn_row();
  const quilt::Quilt after = exchanged(before, 10, 4);  // the middle of the row named, from either side
  for (int column = 0; column < 3; ++column) {
    EXPECT_EQ(after.layout.block[9 + column], before.layout.block[3 + column]);
    EXPECT_EQ(after.layout.block[3 + column], before.layout.block[9 + column]);
    EXPECT_TRUE(after.layout.kept[9 + column]);
    EXPECT_FALSE(after.layout.kept[3 + column]);
  }
  EXPECT_EQ(after.sewn_units[0].cells, (std::vector<int>{9, 10, 11}));
  EXPECT_EQ(after.sewn_units[1].cells, before.sewn_units[1].cells);
}

TEST(ExchangeByHand, WhatHangsWhereItGoesComesBackWithAllThatItIsSewnTo) {
  const quilt::Quilt before = quilt_with_sewn_row();
  const quilt::Quilt after = exchanged(before, 3, 6);
  EXPECT_EQ(after.sewn_units[0].cells, (std::vector<int>{6, 7, 8}));
  EXPECT_EQ(after.sewn_units[1].cells, (std::vector<int>{3, 4}));
  EXPECT_FALSE(after.layout.kept[5]);
  EXPECT_EQ(after.layout.block[5], before.layout.block[8]);
}

TEST(ExchangeByHand, IsRefusedBeyondTheWallOverItselfAndWhereSomethingIsKept) {
  quilt::Quilt quilt = quilt_with_sewn_row();
  for (const auto& [a, b] : {std::pair{3, 10}, std::pair{6, 7}}) {
    const Arrangement before = quilt.layout;
    EXPECT_FALSE(exchange(quilt, a, b).ok()) << a << ", " << b;
    EXPECT_EQ(quilt.layout, before);
  }
  quilt.layout.kept[9] = true;
  const Result<Step> step = exchange(quilt, 4, 10);
  ASSERT_FALSE(step.ok());
  EXPECT_EQ(step.problems().front().at, "R4 C1");
  quilt.layout.kept[9] = false;
  quilt.sewn_units[0].kept_by_hand = {5};
  EXPECT_EQ(exchange(quilt, 4, 10).problems().front().at, "R2 C3");
}

TEST(SewnTogether, NamesTheFirstCellOfAllThatMovesAsOneThroughSharedCellsToo) {
  quilt::Quilt quilt = quilt_with_sewn_row();
  EXPECT_EQ(sewn_together(quilt), (std::vector<int>{kNone, kNone, kNone, 3, 3, 3, 6, 6, kNone, kNone, kNone, kNone}));
  quilt.sewn_units.push_back({quilt::SewnUnit::Stage::section, {8, 7}, {}});
  quilt.sewn_units.push_back({quilt::SewnUnit::Stage::section, {8, 5}, {}});
  EXPECT_EQ(sewn_together(quilt), (std::vector<int>{kNone, kNone, kNone, 3, 3, 3, 3, 3, 3, kNone, kNone, kNone}));
}

TEST(KeptByHand, IsNotWhatIsKeptForBeingSewn) {
  quilt::Quilt quilt = quilt_with_sewn_row();
  quilt.layout.kept[0] = true;
  quilt.sewn_units[0].kept_by_hand = {5};
  EXPECT_TRUE(is_kept_by_hand(quilt, 0));
  EXPECT_FALSE(is_kept_by_hand(quilt, 4));
  EXPECT_TRUE(is_kept_by_hand(quilt, 5));
}

TEST(HalfRound, TurnsARowAsAWholeAndTwiceIsAsItWas) {
  quilt::Quilt quilt = quilt_with_sewn_row();
  const Arrangement before = quilt.layout;
  const Result<Step> step = half_round(quilt, 4);
  ASSERT_TRUE(step.ok());
  carry_out(*step, quilt);
  EXPECT_EQ(quilt.layout.block[3], before.block[5]);
  EXPECT_EQ(quilt.layout.turn[3], before.turn[5] + Turn::quarters(2));
  EXPECT_EQ(quilt.layout.turn[4], before.turn[4] + Turn::quarters(2));
  carry_out(*half_round(quilt, 3), quilt);
  EXPECT_EQ(quilt.layout, before);
}

TEST(HalfRound, IsRefusedWhereABlockMayNotHangSo) {
  quilt::Quilt quilt = quilt_with_sewn_row();
  quilt.patterns[0].turns = {Turn(), Turn::quarters(1)};
  EXPECT_FALSE(half_round(quilt, 4).ok());
}

}  // namespace
}  // namespace farflung::swap
