#include "cloth/ruler.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace farflung::cloth {
namespace {

Length in(double inches) { return Length::inches(inches); }
Length mm(double millimetres) { return Length::millimetres(millimetres); }

TEST(Ruler, ALengthOnAMarkIsCutAsItIs) {
  for (int eighths = 0; eighths < 400; ++eighths) {
    const Measured size = measured(in(eighths / 8.0), Ruler::eighths);
    EXPECT_EQ(size.cut, size.exact);
    EXPECT_TRUE(size.on_ruler());
  }
}

TEST(Ruler, ALengthBetweenMarksIsNeverCutSmaller) {
  for (Ruler ruler : {Ruler::eighths, Ruler::sixteenths, Ruler::millimetres}) {
    for (int i = 1; i < 5000; ++i) {
      const Measured size = measured(mm(0.0137 * i), ruler);
      EXPECT_GE(size.cut + kHair, size.exact);
      EXPECT_LT(size.cut, size.exact + step_of(ruler));
      EXPECT_TRUE(falls_on(size.cut, ruler));
    }
  }
}

TEST(Ruler, TheLastNanometreOfARootDoesNotCostAnEighth) {
  EXPECT_EQ(up_to_mark(in(4.5) + mm(0.000001), Ruler::eighths), in(4.5));
  EXPECT_EQ(up_to_mark(in(4.5) + mm(0.01), Ruler::eighths), in(4.625));
}

TEST(Ruler, SaysWhatLiesBetweenTheMarks) {
  EXPECT_EQ(said(in(4.875), Ruler::eighths), "4 7/8 in");
  EXPECT_EQ(said(in(4.5625), Ruler::sixteenths), "4 9/16 in");
  EXPECT_EQ(said(in(4.8531), Ruler::eighths), "4.853 in") << "never rounded to a mark";
  EXPECT_EQ(said(mm(124), Ruler::millimetres), "124 mm");
  EXPECT_EQ(said(mm(123.3), Ruler::millimetres), "123.5 mm") << "nobody reads tenths off a ruler";
  EXPECT_EQ(said(mm(162.71), Ruler::millimetres), "163 mm");
  EXPECT_EQ(said(mm(6.35), Ruler::millimetres), "6.35 mm");
  EXPECT_EQ(said(measured(in(4.854), Ruler::eighths)), "4 7/8 in (exactly 4.854: 0.021 to trim)");
  EXPECT_EQ(said(measured(mm(92.3), Ruler::millimetres)), "93 mm (92.5 needed: 0.5 to trim)");
  EXPECT_EQ(said(measured(mm(92.7), Ruler::millimetres)), "93 mm") << "less than half a millimetre is not trimmed";
  EXPECT_EQ(said(measured(in(4.5), Ruler::eighths)), "4 1/2 in");
}

TEST(Ruler, AUnitOfAMetricQuiltIsTrimmedToHalfAMillimetreAndNeverShort) {
  EXPECT_EQ(trimmed(mm(150 + 12.7), Ruler::millimetres), mm(163));
  EXPECT_EQ(trimmed(mm(162.4), Ruler::millimetres), mm(162.5));
  EXPECT_EQ(trimmed(mm(165), Ruler::millimetres), mm(165));
  EXPECT_EQ(trimmed(mm(165.001), Ruler::millimetres), mm(165)) << "thinner than a thread";
  for (int i = 1; i < 5000; ++i) {
    const Length exact = mm(0.0137 * i);
    const Length cut = trimmed(exact, Ruler::millimetres);
    EXPECT_GE(cut + kHair, exact);
    EXPECT_LT(cut, exact + mm(0.5));
    EXPECT_EQ(cut, mm(std::round(2 * cut.millimetres()) / 2));
  }
}

TEST(Ruler, AUnitOfAnInchQuiltIsTrimmedToWhatItIs) {
  EXPECT_EQ(trimmed(in(9.5), Ruler::eighths), in(9.5));
  EXPECT_EQ(trimmed(in(9.5) + mm(0.000001), Ruler::eighths), in(9.5));
  EXPECT_EQ(trimmed(in(2.3), Ruler::eighths), in(2.3)) << "between the marks it is said in decimals";
}

TEST(Ruler, StepsCountBothWays) {
  EXPECT_EQ(steps_up(in(17.5), Ruler::eighths), 140);
  EXPECT_EQ(steps_down(in(17.55), Ruler::eighths), 140);
  EXPECT_EQ(steps_up(in(17.55), Ruler::eighths), 141);
  EXPECT_EQ(steps_down(mm(-0.5), Ruler::millimetres), -1);
}

}  // namespace
}  // namespace farflung::cloth
