// Yardage by hand, each from the trade's standard formula; the arithmetic stands beside each.
#include "cloth/yardage.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "cloth/plan.hpp"
#include "cloth/world.hpp"

namespace farflung::cloth {
namespace {

TEST(Yardage, StraightBindingAroundALapQuilt) {
  // 54 x 63: perimeter 234, + 10 = 244. Strips of 40, each join takes 2 1/2: 6 give 240 - 12.5 = 227.5, too short;
  // 7 give 280 - 15 = 265. 7 x 2 1/2 = 17 1/2 in of cloth.
  const BindingPlan plan = binding_plan(in(54), in(63), in(2.5), false, {}, kEighths);
  EXPECT_EQ(plan.perimeter, in(234));
  EXPECT_EQ(plan.total, in(244));
  EXPECT_EQ(plan.strips, 7);
  EXPECT_EQ(plan.cloth, in(17.5));
  // + 1/2 in to straighten = 18 in = 4 x 4 1/2: 1/2 yd
  const Purchase bought = purchase("binding", 0, plan.cloth, {}, false, plan.says);
  EXPECT_EQ(bought.buy, in(18));
  EXPECT_DOUBLE_EQ(bought.amount, 0.5);
  EXPECT_EQ(bought.unit, "yd");
}

TEST(Yardage, NarrowBindingAroundACot) {
  // 36 x 48: perimeter 168, + 10 = 178; strips 2 1/4: 5 give 200 - 9 = 191. 5 x 2 1/4 = 11 1/4 in.
  const BindingPlan plan = binding_plan(in(36), in(48), in(2.25), false, {}, kEighths);
  EXPECT_EQ(plan.strips, 5);
  EXPECT_EQ(plan.cloth, in(11.25));
}

TEST(Yardage, BindingAroundAQueenSizeQuilt) {
  // 90 x 108: perimeter 396, + 10 = 406; 11 strips of 2 1/2 give 440 - 25 = 415 (10 give 377.5). 27 1/2 in.
  const BindingPlan plan = binding_plan(in(90), in(108), in(2.5), false, {}, kEighths);
  EXPECT_EQ(plan.strips, 11);
  EXPECT_EQ(plan.cloth, in(27.5));
}

TEST(Yardage, BiasBindingFromASquare) {
  // 54 x 63: 244 x 2.5 = 610; root 24.698, up to 25, + 1 = 26: one square of 26 in.
  const BindingPlan plan = binding_plan(in(54), in(63), in(2.5), true, {}, kEighths);
  EXPECT_EQ(plan.squares, 1);
  EXPECT_EQ(plan.square, in(26));
  EXPECT_EQ(plan.cloth, in(26));
}

TEST(Yardage, BiasBindingTooLongForOneSquareTakesMore) {
  // 120 x 120: 490 x 2.5 = 1225; root 35: one square of 36. With cloth only 30 wide: two of root 24.7 -> 25 + 1 = 26,
  // one beside the other needs 52: two lengths of 26 = 52 in.
  EXPECT_EQ(binding_plan(in(120), in(120), in(2.5), true, {}, kEighths).square, in(36));
  YardageOptions narrow;
  narrow.usable_width = in(30);
  const BindingPlan plan = binding_plan(in(120), in(120), in(2.5), true, narrow, kEighths);
  EXPECT_EQ(plan.squares, 2);
  EXPECT_EQ(plan.square, in(26));
  EXPECT_EQ(plan.cloth, in(52));
}

TEST(Yardage, BackingBothWays) {
  // 60 x 72 and 4 over: 68 x 80.
  // Seams up and down: 68 across; 2 panels of 40 give 80 - 1 = 79; each 80 long: 160 in.
  // Seams across: 80; 2 panels give 79, too short; 3, each 68 long: 204 in.
  const BackingPlan plan = backing_plan(in(60), in(72), in(4), {}, kEighths);
  EXPECT_EQ(plan.width, in(68));
  EXPECT_EQ(plan.height, in(80));
  EXPECT_EQ(plan.up_and_down.panels, 2);
  EXPECT_EQ(plan.up_and_down.cloth, in(160));
  EXPECT_EQ(plan.across.panels, 3);
  EXPECT_EQ(plan.across.cloth, in(204));
  EXPECT_FALSE(plan.chosen.across);
  // panels (68 + 1) / 2 = 34 1/2 wide
  EXPECT_EQ(plan.chosen.panel_width, in(34.5));
  // 160 + 1/2 = 160.5 in = 35.67 eighths of a yard: 36 = 4 1/2 yd
  EXPECT_DOUBLE_EQ(purchase("backing", 0, plan.chosen.cloth, {}, false, "").amount, 4.5);
}

TEST(Yardage, BackingWithSeamsAcrossWhereThatTakesLess) {
  // 60 x 70: 68 x 78: across 2 panels (79 >= 78) of 68 = 136; up and down 2 of 78 = 156.
  const BackingPlan plan = backing_plan(in(60), in(70), in(4), {}, kEighths);
  EXPECT_TRUE(plan.chosen.across);
  EXPECT_EQ(plan.chosen.cloth, in(136));
  YardageOptions upright;
  upright.backing_upright = true;
  EXPECT_FALSE(backing_plan(in(60), in(70), in(4), upright, kEighths).chosen.across)
      << "a print that must stand keeps its selvage upright";
  YardageOptions asked;
  asked.backing_seams = YardageOptions::BackingSeam::along;
  EXPECT_EQ(backing_plan(in(60), in(70), in(4), asked, kEighths).chosen.cloth, in(156));
}

TEST(Yardage, ASmallBackingNeedsNoSeam) {
  // 30 x 40 and 4 over: 38 x 48: one panel, 48 in.
  const BackingPlan plan = backing_plan(in(30), in(40), in(4), {}, kEighths);
  EXPECT_EQ(plan.chosen.panels, 1);
  EXPECT_EQ(plan.chosen.cloth, in(48));
}

TEST(Yardage, BackingOnWideCloth) {
  // 90 x 108 and 4 over: 98 x 116 from cloth 104 usable: one panel 116 long, up and down.
  YardageOptions wide;
  wide.usable_width = in(104);
  const BackingPlan plan = backing_plan(in(90), in(108), in(4), wide, kEighths);
  EXPECT_EQ(plan.chosen.panels, 1);
  EXPECT_EQ(plan.chosen.cloth, in(116));
}

TEST(Yardage, BattingLiesBetweenTopAndBacking) {
  // 60 x 72, backing 4 over: batting 3 over: 66 x 78: packed twin 72 x 90.
  const BattingPlan plan = batting_plan(in(60), in(72), in(4), {}, kEighths);
  EXPECT_EQ(plan.width, in(66));
  EXPECT_EQ(plan.height, in(78));
  ASSERT_TRUE(plan.packaged);
  EXPECT_STREQ(plan.packaged->name, "twin");
  EXPECT_FALSE(batting_plan(in(130), in(130), in(4), {}, kEighths).packaged);
}

TEST(Yardage, IsRoundedUpToTheEighthAndNeverMore) {
  for (double inches = 0.5; inches < 200; inches += 0.375) {
    const Purchase bought = purchase("x", 0, in(inches), {}, false, "");
    EXPECT_GE(bought.buy, bought.exact);
    EXPECT_LT(bought.buy, bought.exact + in(4.5));
    const Purchase metric = purchase("x", 0, in(inches), {}, true, "");
    EXPECT_GE(metric.buy, metric.exact);
    EXPECT_LT(metric.buy, metric.exact + mm(100));
  }
}

TEST(Yardage, WashingFirstIsAddedAndSaid) {
  // (20 + 0.5) x 1.03 = 21.115 in: 4.69 eighths: 5 = 5/8 yd
  YardageOptions options;
  options.prewashed = true;
  const Purchase bought = purchase("x", 0, in(20), options, false, "");
  EXPECT_NEAR(bought.exact.inches(), 21.115, 1e-6);
  EXPECT_DOUBLE_EQ(bought.amount, 0.625);
  EXPECT_NE(bought.says.find("Washed first: 3 % more"), std::string::npos);
}

Purchase of_part(const std::vector<Purchase>& all, const std::string& what) {
  for (const Purchase& one : all) {
    if (one.what == what) return one;
  }
  return {};
}

TEST(Yardage, EachPartOfAQuiltHasItsOwnLine) {
  // 6 x 7 plain blocks of 9 in print 0 only: 54 x 63; border 4: strips 4 1/2, 7 of them = 31 1/2, + 1/2 = 32: 8
  // eighths = 1 yd.
  quilt::Quilt quilt = quilt_of(plain_square(9), 7, 6, 1);
  for (int i = 1; i < 4; ++i) {
    quilt.prints.emplace_back();
    quilt.prints.back().id = "Q" + std::to_string(i);
  }
  quilt.setting.borders = {{in(4), 1, setting::Border::Corners::butted, kNone}};
  quilt.binding = quilt::Binding{2, in(2.5), false};
  quilt.backing = quilt::Backing{3, in(4)};
  const CutList list = cut_list(quilt);
  const auto all = purchases_by_part(quilt, list);
  EXPECT_DOUBLE_EQ(of_part(all, "border 1").amount, 1.0);
  // blocks: 42 squares of 9 1/2: 4 to a strip, 11 strips of 9 1/2 = 104 1/2, + 1/2 = 105 in: 23.33 eighths: 24 = 3 yd
  EXPECT_DOUBLE_EQ(of_part(all, "blocks").amount, 3.0);
  // binding of 62 x 71: 266 + 10 = 276: 8 strips (320 - 17.5 = 302.5; 7 give 265): 20 in, + 1/2: 4.56 eighths: 5/8 yd
  EXPECT_DOUBLE_EQ(of_part(all, "binding").amount, 0.625);
  // backing 70 x 79: up and down 2 x 79 = 158 (70 <= 79); across 2 x 70 = 140 (79 <= 79): 140.5 in: 31.2: 32 = 4 yd
  EXPECT_DOUBLE_EQ(of_part(all, "backing").amount, 4.0);
  // sleeve: 62 long of strips 9: 2 strips = 18, + 1/2 = 18.5: 4.1 eighths: 5/8 yd
  EXPECT_DOUBLE_EQ(of_part(all, "sleeve").amount, 0.625);
  EXPECT_NE(of_part(all, "batting").says.find("68 x 77 in"), std::string::npos);
}

TEST(Yardage, TheWorkingOfBiasBindingIsWholeSentences) {
  quilt::Quilt quilt = quilt_of(plain_square(9), 7, 6, 1);
  quilt.binding = quilt::Binding{0, in(2.5), true};
  const Purchase binding = of_part(purchases_by_part(quilt, cut_list(quilt)), "binding");
  EXPECT_EQ(binding.says.find("Around the top"), 0U) << binding.says;
  EXPECT_NE(binding.says.find("1 square of 26 in. Straightening"), std::string::npos) << binding.says;
  EXPECT_EQ(binding.says.find(".."), std::string::npos) << binding.says;
}

TEST(Yardage, LengthwiseBordersTakeTheirOwnLength) {
  // The same border along the selvage: 4 strips side by side, 4 x 4 1/2 = 18 <= 40: the longest, 63 1/2, + 1/2 = 64 in:
  // 14.2 eighths: 15 = 1 7/8 yd.
  quilt::Quilt quilt = quilt_of(plain_square(9), 7, 6, 1);
  quilt.setting.borders = {{in(4), 0, setting::Border::Corners::butted, kNone}};
  CutOptions options;
  options.borders = BorderCut::lengthwise;
  const CutList list = cut_list(quilt, options);
  EXPECT_DOUBLE_EQ(of_part(purchases_by_part(quilt, list, options), "border 1").amount, 1.875);
}

TEST(Yardage, MoreQuiltNeverNeedsLessCloth) {
  double binding = 0, backing = 0, batting = 0;
  for (double size = 10; size < 130; size += 0.625) {
    const double b = binding_plan(in(size), in(size * 1.2), in(2.5), false, {}, kEighths).cloth.inches();
    const double k = backing_plan(in(size), in(size * 1.2), in(4), {}, kEighths).chosen.cloth.inches();
    const double t = batting_plan(in(size), in(size * 1.2), in(4), {}, kEighths).width.inches();
    EXPECT_GE(b, binding);
    EXPECT_GE(k, backing);
    EXPECT_GE(t, batting);
    binding = b;
    backing = k;
    batting = t;
  }
}

TEST(Yardage, MetricAgreesWithInchesWithinTheRounding) {
  for (double size = 20; size < 100; size += 7) {
    const Purchase inch =
        purchase("b", 0, backing_plan(in(size), in(size + 10), in(4), {}, kEighths).chosen.cloth, {}, false, "");
    const Purchase metric = purchase(
        "b", 0, backing_plan(in(size), in(size + 10), in(4), {}, Ruler::millimetres).chosen.cloth, {}, true, "");
    EXPECT_NEAR(inch.exact.millimetres(), metric.exact.millimetres(), 3.0);
    EXPECT_EQ(metric.unit, "m");
  }
}

TEST(Yardage, ABiasSquareIsReckonedInTheRulersOwnMeasures) {
  // 1700 x 1920: perimeter 7240, + 250 = 7490; the root of 7490 x 60 is 670.4, up to 680, and 25: 705 mm.
  const BindingPlan metric =
      binding_plan(mm(1700), mm(1920), mm(60), true, usual_yardage(quilt::Units::millimetres), Ruler::millimetres);
  EXPECT_EQ(metric.square, mm(705));
  EXPECT_EQ(metric.says.find("inch"), std::string::npos) << metric.says;
  // 60 x 72: perimeter 264, + 10 = 274; the root of 274 x 2 1/2 is 26.2, up to 27, and 1: 28 in.
  EXPECT_EQ(binding_plan(in(60), in(72), in(2.5), true, {}, kEighths).square, in(28));
}

TEST(Yardage, AMetricQuiltIsReckonedInRoundMeasures) {
  const YardageOptions usual = usual_yardage(quilt::Units::millimetres);
  for (const Length length : {usual.usable_width, usual.squaring, usual.binding_extra, usual.backing_seam,
                              usual.backing_over, usual.batting_less, usual.sleeve_cut}) {
    EXPECT_EQ(std::fmod(length.millimetres(), 5), 0) << length.millimetres();
  }
  EXPECT_EQ(usual.usable_width, mm(1000));
  EXPECT_LT(usual.usable_width, in(40)) << "cloth comes as wide, whatever it is measured in";
  EXPECT_EQ(usual_yardage(quilt::Units::inches).binding_extra, in(10));
  // 1400 x 1600: perimeter 6000, + 250 = 6250; strips of 1000, each join takes 60: 6 give 6000 - 300 = 5700, too short;
  // 7 give 7000 - 360 = 6640. 7 x 60 = 420 mm of cloth.
  const BindingPlan plan = binding_plan(mm(1400), mm(1600), quilt::usual_widths(quilt::Units::millimetres).binding,
                                        false, usual, Ruler::millimetres);
  EXPECT_EQ(plan.strips, 7);
  EXPECT_EQ(plan.cloth, mm(420));
}

TEST(Yardage, BattingReachesLessFarThanTheBacking) {
  EXPECT_EQ(batting_beyond(in(4), {}), in(3));
  EXPECT_EQ(batting_beyond(in(2), {}), in(1));
  EXPECT_EQ(batting_beyond(in(1), {}), in(0.5));
  EXPECT_EQ(batting_beyond(mm(100), usual_yardage(quilt::Units::centimetres)), mm(75));
}

}  // namespace
}  // namespace farflung::cloth
