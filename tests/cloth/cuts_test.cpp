// Cuts told in steps, units told in kinds, cloth that is to be bought.
#include <algorithm>

#include <gtest/gtest.h>

#include "cloth/piecing.hpp"
#include "cloth/plan.hpp"
#include "cloth/workroom.hpp"
#include "cloth/world.hpp"

namespace farflung::cloth {
namespace {

TEST(CutSteps, ARowOfEqualCutsIsOneStep) {
  // Five-inch squares from 20 x 17 1/2: three strips, each cut to four.
  quilt::Quilt quilt = quilt_of(plain_square(4.5), 3, 4, 1);
  quilt.prints[0].cloth = {fat_quarter()};
  const PrintPlan plan = print_plan(quilt, cut_list(quilt), 0);
  ASSERT_TRUE(plan.enough);
  const std::vector<CutStep> steps = cut_steps(plan.sheets[0], Ruler::eighths);
  ASSERT_FALSE(steps.empty());
  EXPECT_EQ(steps[0].says, "across, every 5 in, 3 times, from the top edge");
  EXPECT_EQ(steps[0].first, 1);
  EXPECT_EQ(steps[0].last, 3);
}

TEST(CutSteps, HoldEveryCutOnceInOrder) {
  for (int rows = 1; rows <= 6; ++rows) {
    quilt::Quilt quilt = quilt_of(uneven_rails(), rows, 5, 3);
    for (auto& print : quilt.prints) print.cloth = {yardage(36)};
    const CutList list = cut_list(quilt);
    for (const PrintPlan& plan : cutting_plans(quilt, list).plans) {
      for (const SheetPlan& sheet : plan.sheets) {
        for (const bool left : {false, true}) {
          const SheetPlan drawn = left ? left_handed(sheet) : sheet;
          int next = 1, lines = 0;
          for (const CutStep& step : cut_steps(drawn, list.ruler, left)) {
            EXPECT_EQ(step.first, next);
            next = step.last + 1;
            lines += step.times * step.pieces;
          }
          EXPECT_EQ(next, static_cast<int>(sheet.cuts.size()) + 1);
          EXPECT_EQ(lines, static_cast<int>(sheet.cuts.size()));
        }
      }
    }
  }
}

TEST(Bought, TheLengthToBuyHoldsEveryPieceThatIsWanted) {
  for (int rows = 1; rows <= 8; ++rows) {
    const quilt::Quilt quilt = quilt_of(uneven_rails(), rows, 6, 3);
    for (const PrintPlan& plan : cutting_plans(quilt, cut_list(quilt)).plans) {
      ASSERT_TRUE(plan.bought);
      std::vector<int> counts(plan.wanted.size(), 0);
      for (const PlacedPiece& piece : plan.bought->pieces) {
        ++counts[piece.wanted];
        EXPECT_LE(piece.area.y + piece.area.height, plan.bought->length);
        EXPECT_LE(piece.area.x + piece.area.width, plan.bought->width);
      }
      for (std::size_t i = 0; i < counts.size(); ++i) EXPECT_EQ(counts[i], plan.wanted[i].count);
      // What is bought loses its straightened end before it is cut.
      EXPECT_LE(plan.bought->length, plan.more->buy - YardageOptions().squaring);
    }
  }
}

TEST(Bought, WhatIsWiderThanTheClothHasNoDrawing) {
  quilt::Quilt quilt = quilt_of(plain_square(44), 1, 1, 1);
  const PrintPlan plan = print_plan(quilt, cut_list(quilt), 0);
  EXPECT_FALSE(plan.bought);
  EXPECT_FALSE(plan.enough);
}

TEST(UnitKinds, TheTwoHalvesOfAnHourglassAreOneKind) {
  const block::Pattern pattern = hourglass(6);
  const auto kinds = unit_kinds(pattern, piecing_of(pattern, in(0.25), Ruler::eighths));
  // Two halves, each of one A and one B, turned by half: then the two are joined.
  ASSERT_EQ(kinds.size(), 2U);
  EXPECT_EQ(kinds[0].steps.size(), 2U);
  EXPECT_EQ(kinds[1].steps.size(), 1U);
}

TEST(UnitKinds, EveryStepHasOneKindAndMirroredUnitsDiffer) {
  for (const block::Pattern& pattern : {two_geese(), nine_patch(9), corner_cut(8, 2), uneven_rails()}) {
    const Piecing piecing = piecing_of(pattern, in(0.25), Ruler::eighths);
    std::vector<int> seen(piecing.steps.size(), 0);
    for (const UnitKind& kind : unit_kinds(pattern, piecing)) {
      for (const int step : kind.steps) ++seen[step];
    }
    EXPECT_TRUE(std::all_of(seen.begin(), seen.end(), [](int count) { return count == 1; })) << pattern.id;
  }
  // A goose with its left sky is no goose with its right sky, however it is turned; two geese have two of each.
  const block::Pattern geese = two_geese();
  const auto kinds = unit_kinds(geese, piecing_of(geese, in(0.25), Ruler::eighths));
  EXPECT_EQ(kinds[0].steps.size(), 2U);
}

TEST(TestBlock, OfTheQuiltItselfMovesTheFrame) {
  // 5 x 4 blocks of 9 in, 1/8 in too small each way: 45 in become 44 3/8 across, 36 become 35 1/2 down.
  quilt::Quilt quilt = quilt_of(uneven_rails(), 4, 5, 3);
  quilt.test_block = quilt::TestBlock{0, in(9.375), in(9.375)};
  const Workroom room = workroom_of(quilt);
  EXPECT_EQ(room.top.width, in(44.375));
  EXPECT_EQ(room.top.height, in(35.5));
  ASSERT_TRUE(room.test_block);
  EXPECT_EQ(room.test_block->finished_width, in(8.875));
}

}  // namespace
}  // namespace farflung::cloth
