// Cutting plans: fat-quarter yields by hand, and every plan of every quilt cut piece by piece.
#include "cloth/plan.hpp"

#include <algorithm>
#include <list>

#include <gtest/gtest.h>

#include "base/rng.hpp"
#include "cloth/world.hpp"
#include "quilt/cloth_kinds.hpp"

namespace farflung::cloth {
namespace {

struct Cloth {
  Length x, y, width, height;
  friend bool operator==(const Cloth&, const Cloth&) = default;
};
Cloth cloth_of(const Area& area) { return {area.x, area.y, area.width, area.height}; }

/// Follows the numbered cuts of a sheet with nothing but its own arithmetic; "" where all is as the plan says.
std::string cut_up(const SheetPlan& sheet, const std::vector<WantedPiece>& wanted) {
  std::list<Cloth> table = {{Length(), Length(), sheet.width, sheet.length}};
  int number = 0;
  for (const NumberedCut& cut : sheet.cuts) {
    if (cut.number != ++number) return "a cut out of number";
    const auto on = std::find(table.begin(), table.end(), cloth_of(cut.of));
    if (on == table.end()) return "cut " + std::to_string(number) + " is through nothing";
    const Cloth whole = *on;
    table.erase(on);
    Cloth first = whole, second = whole;
    if (cut.upright) {
      first.width = cut.at - whole.x;
      second.x = cut.at;
      second.width = whole.width - first.width;
    } else {
      first.height = cut.at - whole.y;
      second.y = cut.at;
      second.height = whole.height - first.height;
    }
    for (const Cloth& half : {first, second}) {
      if (half.width <= Length() || half.height <= Length()) return "a cut beside the cloth";
      table.push_back(half);
    }
  }
  for (const PlacedPiece& piece : sheet.pieces) {
    const WantedPiece& want = wanted[piece.wanted];
    if (piece.turned && !want.turnable) return "a piece on its side";
    const Length w = piece.turned ? want.height : want.width;
    const Length h = piece.turned ? want.width : want.height;
    const auto lies = std::find(table.begin(), table.end(), cloth_of(piece.area));
    if (lies == table.end()) return "a piece that was not cut out";
    if (piece.area.width != w || piece.area.height != h) return "a piece of the wrong size";
    table.erase(lies);
  }
  for (const Area& left : sheet.left) {
    const auto lies = std::find(table.begin(), table.end(), cloth_of(left));
    if (lies == table.end()) return "a leftover that is not there";
    table.erase(lies);
  }
  return table.empty() ? "" : "cloth that is not spoken for";
}

/// Replays every sheet; what is said to be enough must be there, and no more sheets used than are in hand.
std::string wrong_with(const quilt::Quilt& quilt, const PrintPlan& plan) {
  std::vector<int> counts(plan.wanted.size(), 0);
  int sheets = 0;
  for (const SheetPlan& sheet : plan.sheets) {
    const std::string wrong = cut_up(sheet, plan.wanted);
    if (!wrong.empty()) return wrong;
    sheets += sheet.copies;
    for (const PlacedPiece& piece : sheet.pieces) counts[piece.wanted] += sheet.copies;
  }
  int in_hand = 0;
  for (const auto& cloth : quilt.prints[plan.print].cloth) in_hand += cloth.count;
  if (sheets > in_hand) return "more cloth than there is";
  bool all = true;
  for (std::size_t i = 0; i < counts.size(); ++i) all = all && counts[i] >= plan.wanted[i].count;
  if (plan.enough && !all) return "said to be enough, and is not";
  return "";
}

/// One print, all blocks of it.
quilt::Quilt of_one_print(block::Pattern pattern, int blocks, std::vector<print::Cloth> cloth) {
  quilt::Quilt quilt = quilt_of(std::move(pattern), 1, blocks, 1);
  quilt.prints[0].cloth = std::move(cloth);
  return quilt;
}

bool enough(const quilt::Quilt& quilt) {
  const CuttingPlans plans = cutting_plans(quilt, cut_list(quilt));
  for (const PrintPlan& plan : plans.plans) EXPECT_EQ(wrong_with(quilt, plan), "");
  return plans.enough;
}

TEST(Plan, AFatQuarterYieldsTwelveSquaresOfFive) {
  // 20 / 5 = 4, 17 1/2 / 5 = 3: 12 squares of 4 1/2 finished, not 13.
  EXPECT_TRUE(enough(of_one_print(plain_square(4.5), 12, {fat_quarter()})));
  EXPECT_FALSE(enough(of_one_print(plain_square(4.5), 13, {fat_quarter()})));
}

TEST(Plan, AFatQuarterYieldsFourSquaresOfEightAndAHalf) {
  // 20 / 8 1/2 = 2, 17 1/2 / 8 1/2 = 2: 4, not 5.
  EXPECT_TRUE(enough(of_one_print(plain_square(8), 4, {fat_quarter()})));
  EXPECT_FALSE(enough(of_one_print(plain_square(8), 5, {fat_quarter()})));
}

TEST(Plan, AFatQuarterYieldsFiftySixSquaresOfTwoAndAHalf) {
  // 20 / 2 1/2 = 8, 17 1/2 / 2 1/2 = 7: 56, and nothing is left.
  EXPECT_TRUE(enough(of_one_print(plain_square(2), 56, {fat_quarter()})));
  EXPECT_FALSE(enough(of_one_print(plain_square(2), 57, {fat_quarter()})));
}

TEST(Plan, WhatIsBoughtIsDrawnAlsoWhereItsPiecesLieEndToEnd) {
  // One square of 30 1/2, or two: nothing lies beside another on cloth of 40 in, and the length bought is longer.
  for (const int count : {1, 2}) {
    const quilt::Quilt quilt = of_one_print(plain_square(30), count, {});
    const PrintPlan plan = print_plan(quilt, cut_list(quilt), 0);
    ASSERT_TRUE(plan.more);
    ASSERT_TRUE(plan.bought) << count;
    EXPECT_EQ(plan.bought->pieces.size(), static_cast<std::size_t>(count));
    EXPECT_EQ(plan.bought->kind, "by the yard");
    EXPECT_GT(plan.bought->length, count * in(30.5));
  }
}

TEST(Plan, AFatQuarterByTheMetreIsHalfAMetreOfTheBoltPartedInTwo) {
  const YardageOptions yardage = usual_yardage(quilt::Units::millimetres);
  for (const quilt::Units units : {quilt::Units::centimetres, quilt::Units::millimetres}) {
    const quilt::ClothKind& kind = *quilt::kind_named("fat quarter", units);
    EXPECT_EQ(kind.length, Length::millimetres(500));
    EXPECT_EQ(2 * kind.usable_width, yardage.usable_width);
    EXPECT_EQ(kind.usable_length, kind.length - yardage.squaring);
  }
  const quilt::ClothKind& by_the_yard = *quilt::kind_named("fat quarter", quilt::Units::inches);
  EXPECT_EQ(by_the_yard.usable_width, in(20));
  EXPECT_EQ(by_the_yard.usable_length, in(17.5));
}

TEST(Plan, NoKindOfClothIsCountedLargerThanItIsSold) {
  for (const quilt::Units units : {quilt::Units::inches, quilt::Units::centimetres, quilt::Units::millimetres}) {
    for (const quilt::ClothKind& kind : quilt::cloth_kinds(units)) {
      EXPECT_LE(kind.usable_width, kind.width) << kind.name;
      EXPECT_LE(kind.usable_length, kind.length) << kind.name;
      EXPECT_LE(kind.usable_width, usual_yardage(units).usable_width) << kind.name;
    }
  }
}

TEST(Plan, AFatEighthEitherWayYieldsDifferently) {
  // 8 1/2 squares: 20 x 8 1/2 gives 2; the long one, 10 x 17 1/2, gives 2 as well; 5 1/2 squares: 3 and 3; strips of
  // 2 1/2 x 15: 3 from 20 x 8 1/2 (three high), 4 from 10 x 17 1/2.
  const auto eighth = [](double w, double l) { return print::Cloth{"fat eighth", in(w), in(l), 1, "", std::nullopt}; };
  block::Pattern strip = pattern_of("strip", 14.5, {"A"}, {{0, rectangle(in(0), in(0), in(14.5), in(2))}});
  EXPECT_TRUE(enough(of_one_print(strip, 3, {eighth(20, 8.5)})));
  EXPECT_FALSE(enough(of_one_print(strip, 4, {eighth(20, 8.5)})));
  EXPECT_TRUE(enough(of_one_print(strip, 4, {eighth(10, 17.5)})));
}

TEST(Plan, CharmSquaresGiveOneHalfSquareUnitEach) {
  // triangles of 4: squares of 4 7/8 from charms of 5: one charm gives two triangles; 6 blocks, one print in both
  // slots: 12 triangles, 6 charms.
  const print::Cloth charms{"charm square", in(5), in(5), 6, "", std::nullopt};
  EXPECT_TRUE(enough(of_one_print(half_squares(4), 6, {charms})));
  EXPECT_FALSE(enough(of_one_print(half_squares(4), 7, {charms})));
}

TEST(Plan, YardageAcrossItsWidth) {
  // 24 squares of 9 1/2 from 40 wide: 4 a strip, 6 strips of 9 1/2 = 57 in; 56 7/8 is too short.
  EXPECT_TRUE(enough(of_one_print(plain_square(9), 24, {yardage(57)})));
  EXPECT_FALSE(enough(of_one_print(plain_square(9), 24, {yardage(56.875)})));
}

TEST(Plan, WhatIsMissingIsSaidByTheYardAndByThePiece) {
  const quilt::Quilt quilt = of_one_print(plain_square(8), 9, {fat_quarter()});
  const CuttingPlans plans = cutting_plans(quilt, cut_list(quilt));
  ASSERT_EQ(plans.plans.size(), 1U);
  const PrintPlan& plan = plans.plans[0];
  EXPECT_FALSE(plan.enough);
  EXPECT_TRUE(plan.proven);
  // 5 missing: 4 a fat quarter: 2 more. By the yard: 4 a strip of 40: 2 strips of 8 1/2 = 17, + 1/2: 4 eighths
  EXPECT_EQ(plan.more_pieces, 2);
  ASSERT_TRUE(plan.more);
  EXPECT_DOUBLE_EQ(plan.more->amount, 0.5);
}

TEST(Plan, WithoutClothInHandAllIsToBeBought) {
  const quilt::Quilt quilt = of_one_print(plain_square(9), 24, {});
  const CuttingPlans plans = cutting_plans(quilt, cut_list(quilt));
  EXPECT_FALSE(plans.enough);
  EXPECT_FALSE(plans.plans[0].has_cloth);
  // 57 + 1/2 = 57.5: 12.8 eighths: 13
  EXPECT_DOUBLE_EQ(plans.plans[0].more->amount, 1.625);
}

TEST(Plan, AnUprightPrintIsNotCutOnItsSide) {
  // Rails 9 1/2 x 4 1/2 from a piece 9 1/2 long and 13 1/2 wide: upright (9 1/2 across) one above the other: 2;
  // freely, three side by side.
  block::Pattern rail = pattern_of("rail", 9, {"A"}, {{0, rectangle(in(0), in(0), in(9), in(4))}});
  const print::Cloth scrap{"scrap", in(13.5), in(9.5), 1, "", std::nullopt};
  quilt::Quilt quilt = of_one_print(rail, 3, {scrap});
  EXPECT_TRUE(enough(quilt));
  quilt.prints[0].upright = true;
  EXPECT_FALSE(enough(quilt));
}

TEST(Plan, PrintsCutAlikeShareOnePlanInStacks) {
  // Six prints, one fat quarter each, the same pieces of each: one plan, stacks of 3 and 3 (not 4 and 2).
  quilt::Quilt quilt = quilt_of(plain_square(8), 4, 6, 6);
  for (auto& print : quilt.prints) print.cloth = {fat_quarter()};
  const CuttingPlans plans = cutting_plans(quilt, cut_list(quilt));
  EXPECT_TRUE(plans.enough);
  ASSERT_EQ(plans.groups.size(), 1U);
  EXPECT_EQ(plans.groups[0].plans.size(), 6U);
  EXPECT_EQ(plans.groups[0].stacks, (std::vector<int>{3, 3}));
  EXPECT_FALSE(plans.groups[0].right_sides_up);
}

TEST(Plan, StripsForBindingAreAsLongAsTheClothAllows) {
  // Binding of a small quilt from two fat quarters: 24 x 24: 96 + 10 = 106; strips of 20: 6 give 120 - 12.5 = 107.5;
  // a fat quarter yields 7 strips of 2 1/2 x 20.
  quilt::Quilt quilt = quilt_of(plain_square(12), 2, 2, 2);
  quilt.binding = quilt::Binding{1, in(2.5), false};
  for (auto& block : quilt.blocks) block.prints = {0};
  quilt.prints[0].cloth = {yardage(30)};
  quilt.prints[1].cloth = {fat_quarter(1)};
  EXPECT_TRUE(enough(quilt));
  quilt.prints[1].cloth = {{"scrap", in(20), in(12.5), 1, "", std::nullopt}};  // five strips only
  EXPECT_FALSE(enough(quilt));
}

/// How many strips of a length and width are wanted of one print's plan, and how many of them are missing.
std::pair<int, int> strips_of(const PrintPlan& plan, Length length, Length width) {
  for (std::size_t i = 0; i < plan.wanted.size(); ++i) {
    if (plan.wanted[i].width == length && plan.wanted[i].height == width)
      return {plan.wanted[i].count, plan.missing[i]};
  }
  return {0, 0};
}

TEST(Plan, StripsThatAreBoughtRunAcrossTheClothThatIsBought) {
  // Four squares of 8 1/2 are all that a fat quarter gives: nine give the 36 blocks, and no border.
  quilt::Quilt quilt = quilt_of(plain_square(8), 6, 6, 1);
  quilt.setting.borders = {{in(4), 0}};
  quilt.prints[0].cloth = {fat_quarter(9)};
  const CutList list = cut_list(quilt);
  ASSERT_EQ(list.runs.size(), 1U);
  const PrintPlan plan = print_plan(quilt, list, 0);
  EXPECT_FALSE(plan.enough);
  EXPECT_EQ(plan.strips.at(0), in(40));
  const auto [wanted, missing] = strips_of(plan, in(40), in(4.5));
  EXPECT_GT(wanted, 3);
  EXPECT_EQ(missing, wanted) << "a fat quarter gives none so long";
  EXPECT_EQ(strips_of(plan, in(20), in(4.5)).first, 0);
  ASSERT_TRUE(plan.bought);
  EXPECT_EQ(plan.bought->width, in(40));
  EXPECT_EQ(plan.sheets.size(), 1U) << "the blocks come from the fat quarters, all cut alike";
  EXPECT_EQ(plan.missing.front(), 0);
}

TEST(Plan, WhatTheClothInHandGivesWholeIsNotBought) {
  // Of the binding's strips a fat quarter holds seven, so three hold all of it; the border is bought.
  quilt::Quilt quilt = quilt_of(plain_square(8), 6, 6, 2);
  for (auto& block : quilt.blocks) block.prints = {0};
  quilt.prints[0].cloth = {yardage(100)};
  quilt.setting.borders = {{in(4), 1}};
  quilt.binding = quilt::Binding{1, in(2.5), false};
  quilt.prints[1].cloth = {fat_quarter(3)};
  const CutList list = cut_list(quilt);
  ASSERT_EQ(list.runs.size(), 2U);
  const PrintPlan plan = print_plan(quilt, list, 1);
  EXPECT_FALSE(plan.enough);
  const int binding = list.runs[0].part == "binding" ? 0 : 1;
  EXPECT_EQ(plan.strips.at(binding), in(20));
  EXPECT_EQ(plan.strips.at(1 - binding), in(40));
  EXPECT_EQ(strips_of(plan, in(20), in(2.5)).second, 0);
  EXPECT_GT(strips_of(plan, in(40), in(4.5)).second, 0);
}

TEST(Plan, WhereClothIsBoughtAnyhowStripsAreJoinedFromItsWholeWidth) {
  // 48 x 48: 192 + 10 = 202 of binding: six strips of 40 by the yard, where ten-inch squares would give 27 short ones.
  // The four squares in hand are for patches, one 8 1/2 each.
  quilt::Quilt quilt = quilt_of(plain_square(8), 6, 6, 1);
  quilt.binding = quilt::Binding{0, in(2.5), false};
  quilt.prints[0].cloth = {{"10 in square", in(10), in(10), 4, "", std::nullopt}};
  const PrintPlan plan = cutting_plans(quilt, cut_list(quilt)).plans[0];
  EXPECT_FALSE(plan.enough);
  ASSERT_EQ(plan.sheets.size(), 1U);
  EXPECT_EQ(plan.sheets[0].pieces.size(), 1U);
  int strips = 0;
  for (const WantedPiece& piece : plan.wanted) strips += piece.height == in(2.5) ? piece.count : 0;
  EXPECT_EQ(strips, 6);
  EXPECT_EQ(plan.more_pieces, 0) << "no more squares are named to join them from";
}

TEST(Plan, MoreBlocksNeverNeedLessCloth) {
  for (const auto& pattern : {uneven_rails(), half_squares(5), two_geese()}) {
    Length before;
    for (int blocks = 1; blocks < 60; ++blocks) {
      const quilt::Quilt quilt = of_one_print(pattern, blocks, {});
      const CuttingPlans plans = cutting_plans(quilt, cut_list(quilt), {.effort = {.exact = 0, .grid = 0}});
      const Length now = plans.plans[0].more->exact;
      EXPECT_GE(now, before) << pattern.id << " " << blocks;
      before = std::max(before, now);
    }
  }
}

TEST(Plan, EnoughIsNeverSaidWhenItIsNot) {
  Rng chance(Seed{5});
  PlanOptions quick;
  quick.effort = {.exact = 50'000, .grid = 200'000};
  for (int i = 0; i < 40; ++i) {
    block::Pattern pattern = std::vector<block::Pattern>{uneven_rails(), half_squares(4), hourglass(6), two_geese(),
                                                         corner_cut(6, 2)}[chance.below(5)];
    quilt::Quilt quilt = quilt_of(pattern, 2 + static_cast<int>(chance.below(5)), 2 + static_cast<int>(chance.below(5)),
                                  3 + static_cast<int>(chance.below(3)));
    for (auto& print : quilt.prints) {
      print.upright = chance.below(4) == 0;
      for (int k = static_cast<int>(chance.below(3)); k >= 0; --k) {
        print.cloth.push_back({"scrap", in(4 + chance.below(300) / 16.0), in(4 + chance.below(300) / 16.0),
                               static_cast<int>(1 + chance.below(2)), "", std::nullopt});
      }
    }
    for (Turn& turn : quilt.layout.turn) turn = Turn::quarters(static_cast<int>(chance.below(4)));
    for (auto units : {quilt::Units::inches, quilt::Units::millimetres}) {
      quilt.units = units;
      const CuttingPlans plans = cutting_plans(quilt, cut_list(quilt), quick);
      for (const PrintPlan& plan : plans.plans) {
        EXPECT_EQ(wrong_with(quilt, plan), "") << i;
        EXPECT_EQ(plan.enough, !plan.more.has_value());
      }
    }
  }
}

TEST(Plan, TheLeftHandedDrawingIsTheSameCloth) {
  const quilt::Quilt quilt = of_one_print(uneven_rails(), 2, {fat_quarter()});
  const CuttingPlans plans = cutting_plans(quilt, cut_list(quilt));
  const PrintPlan& plan = plans.plans[0];
  const SheetPlan left = left_handed(plan.sheets[0]);
  EXPECT_EQ(left.pieces.size(), plan.sheets[0].pieces.size());
  for (std::size_t i = 0; i < left.pieces.size(); ++i) {
    const Area& a = plan.sheets[0].pieces[i].area;
    const Area& b = left.pieces[i].area;
    EXPECT_EQ(a.x + a.width + b.x, plan.sheets[0].width);
    EXPECT_EQ(a.y, b.y);
  }
}

TEST(Plan, ClothOffTheRulerCountsOnlyToItsLastMark) {
  // A scrap of 9.49 x 9.6 holds no 9 1/2 square.
  EXPECT_FALSE(enough(of_one_print(plain_square(9), 1, {{"scrap", in(9.49), in(9.6), 1, "", std::nullopt}})));
  EXPECT_TRUE(enough(of_one_print(plain_square(9), 1, {{"scrap", in(9.5), in(9.6), 1, "", std::nullopt}})));
}

}  // namespace
}  // namespace farflung::cloth
