// Cut sizes by hand: the arithmetic stands beside each.
#include "cloth/shape.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "cloth/trade.hpp"
#include "cloth/units.hpp"
#include "cloth/world.hpp"

namespace farflung::cloth {
namespace {

CutShape cut(const Polygon& polygon, Ruler ruler = Ruler::eighths) { return cut_shape(polygon, kQuarter, ruler); }

TEST(Shape, ASquareIsCutHalfAnInchLarger) {
  // 4 + 1/4 + 1/4 = 4 1/2
  const CutShape shape = cut(rectangle(in(0), in(0), in(4), in(4)));
  EXPECT_EQ(shape.shape, Shape::square);
  EXPECT_EQ(shape.width.cut, in(4.5));
  EXPECT_EQ(shape.height.cut, in(4.5));
  EXPECT_TRUE(shape.on_ruler());
}

TEST(Shape, AStripIsCutHalfAnInchLargerBothWays) {
  // rails: 9 x 4 finished: 9 1/2 x 4 1/2
  const CutShape shape = cut(rectangle(in(0), in(5), in(9), in(4)));
  EXPECT_EQ(shape.shape, Shape::rectangle);
  EXPECT_EQ(shape.width.cut, in(9.5));
  EXPECT_EQ(shape.height.cut, in(4.5));
}

TEST(Shape, AKiteThatLeansOnNoAxisIsCutAlongItsLongestEdge) {
  // A kite of no side along the weave: by a template, laid with its longest edge along it; upright it stays as drawn.
  const Polygon kite = corners({{2, 0}, {5, 3}, {4, 6}, {0, 4}});
  const CutShape laid = cut(kite);
  EXPECT_EQ(laid.shape, Shape::odd);
  EXPECT_TRUE(laid.askew);
  EXPECT_FALSE(cut_shape(kite, kQuarter, Ruler::eighths, true).askew);
}

TEST(Shape, AHalfSquareTriangleTakesSevenEighths) {
  // 4 + 0.25 x (2 + 1.41421) = 4 + 0.853553 = 4.853553, up to the mark 4 7/8
  const CutShape shape = cut(corners({{0, 0}, {4, 0}, {0, 4}}));
  EXPECT_EQ(shape.shape, Shape::half_square);
  EXPECT_NEAR(shape.width.exact.inches(), 4.853553, 1e-6);
  EXPECT_EQ(shape.width.cut, in(4.875));
  EXPECT_EQ(shape.per_rectangle, 2);
  EXPECT_NE(shape.working.find("4 7/8 in (exactly 4.854: 0.021 to trim)"), std::string::npos) << shape.working;
}

TEST(Shape, AQuarterSquareTriangleTakesAnInchAndAQuarter) {
  // hourglass of 6: long side 6; 6 + 0.25 x (2 + 2.82843) = 6 + 1.207107 = 7.207107, up to the mark 7 1/4
  const CutShape shape = cut(corners({{0, 0}, {6, 0}, {3, 3}}));
  EXPECT_EQ(shape.shape, Shape::quarter_square);
  EXPECT_NEAR(shape.width.exact.inches(), 7.207107, 1e-6);
  EXPECT_EQ(shape.width.cut, in(7.25));
  EXPECT_EQ(shape.per_rectangle, 4);
  EXPECT_EQ(shape.facing, 0) << "its long side, and so its straight grain, lies on the block's top edge";
}

TEST(Shape, EveryFacingOfATriangleIsKnown) {
  EXPECT_EQ(cut(corners({{0, 0}, {4, 0}, {0, 4}})).facing, 0);
  EXPECT_EQ(cut(corners({{0, 0}, {4, 0}, {4, 4}})).facing, 1);
  EXPECT_EQ(cut(corners({{4, 0}, {4, 4}, {0, 4}})).facing, 2);
  EXPECT_EQ(cut(corners({{0, 0}, {4, 4}, {0, 4}})).facing, 3);
  EXPECT_EQ(cut(corners({{6, 0}, {6, 6}, {3, 3}})).facing, 1);
  EXPECT_EQ(cut(corners({{0, 6}, {3, 3}, {6, 6}})).facing, 2);
  EXPECT_EQ(cut(corners({{0, 0}, {3, 3}, {0, 6}})).facing, 3);
}

TEST(Shape, TheFormulasHoldAgainstTheOffsetPolygonItself) {
  // Two half-square triangles fill their square but for the cut: the offset triangle's legs are the square's side.
  for (double leg = 0.5; leg < 12; leg += 0.375) {
    const Polygon line = with_allowance(corners({{0, 0}, {leg, 0}, {0, leg}}), kQuarter);
    double low = 1e9, high = -1e9;
    for (Point p : line) {
      low = std::min(low, p.x.inches());
      high = std::max(high, p.x.inches());
    }
    EXPECT_NEAR(high - low, half_square_cut(in(leg), kQuarter).inches(), 1e-6);
    const Polygon quarter = with_allowance(corners({{0, 0}, {leg, 0}, {leg / 2, leg / 2}}), kQuarter);
    low = 1e9, high = -1e9;
    for (Point p : quarter) {
      low = std::min(low, p.x.inches());
      high = std::max(high, p.x.inches());
    }
    EXPECT_NEAR(high - low, quarter_square_cut(in(leg), kQuarter).inches(), 1e-6);
  }
}

TEST(Shape, OnPointSettingTrianglesFollowTheBlock) {
  // 12 in blocks: diagonal 16.970563; sides + 1.207107 = 18.177670, up to 18 1/4;
  // corners: half of it 8.485281 + 0.853553 = 9.338835, up to 9 3/8.
  EXPECT_EQ(up_to_mark(setting_side_cut(in(12), in(0), kQuarter), Ruler::eighths), in(18.25));
  EXPECT_EQ(up_to_mark(setting_corner_cut(in(12), in(0), kQuarter), Ruler::eighths), in(9.375));
  // a 1 in sash: diagonal of 13 = 18.384776; sides 19.591883, up to 19 5/8; corners 9.192388 + 0.853553 = 10.045942,
  // up to 10 1/8.
  EXPECT_EQ(up_to_mark(setting_side_cut(in(12), in(1), kQuarter), Ruler::eighths), in(19.625));
  EXPECT_EQ(up_to_mark(setting_corner_cut(in(12), in(1), kQuarter), Ruler::eighths), in(10.125));
}

TEST(Shape, ASettingTriangleBetweenSashesIsCutWholeAndTrimmed) {
  // A side piece that ends blunt, 1 high, where sashes meet it: the triangle that holds it is 10 + 2 = 12 long.
  const CutShape shape =
      setting_triangle(corners({{0, 0}, {10, 0}, {10, 1}, {6, 5}, {4, 5}, {0, 1}}), kQuarter, Ruler::eighths);
  EXPECT_EQ(shape.shape, Shape::quarter_square);
  EXPECT_EQ(shape.finished_width, in(12));
  EXPECT_EQ(shape.width.cut, in(13.25));  // 12 + 1 1/4 up from 13.207
}

TEST(Shape, ADiamondSquareIsCutAlongItsOwnSidesAndSaysItIsOffTheRuler) {
  // square in a square of 6: side 3 root 2 = 4.242641; + 1/2 = 4.742641, up to 4 3/4, 0.007 to trim
  const CutShape shape = cut(corners({{3, 0}, {6, 3}, {3, 6}, {0, 3}}));
  EXPECT_EQ(shape.shape, Shape::square);
  EXPECT_TRUE(shape.askew);
  EXPECT_EQ(shape.width.cut, in(4.75));
  EXPECT_FALSE(shape.on_ruler());
  EXPECT_NEAR(shape.width.over().inches(), 0.007359, 1e-6);
}

TEST(Shape, ADiamondOfAPrintThatMustStandIsATemplate) {
  const CutShape shape = cut_shape(corners({{3, 0}, {6, 3}, {3, 6}, {0, 3}}), kQuarter, Ruler::eighths, true);
  EXPECT_EQ(shape.shape, Shape::odd);
  // 6 + 2 x 0.25 x root 2 = 6.7071, up to 6 3/4
  EXPECT_EQ(shape.width.cut, in(6.75));
}

TEST(Shape, AnOctagonIsATemplateThatIsItsOwnMirror) {
  const CutShape shape = cut(corners({{2, 0}, {4, 0}, {6, 2}, {6, 4}, {4, 6}, {2, 6}, {0, 4}, {0, 2}}));
  EXPECT_EQ(shape.shape, Shape::odd);
  EXPECT_EQ(shape.width.cut, in(6.5));
  EXPECT_TRUE(shape.own_mirror);
}

TEST(Shape, AParallelogramIsNotItsOwnMirror) {
  const CutShape shape = cut(corners({{0, 0}, {4, 0}, {6, 2}, {2, 2}}));
  EXPECT_EQ(shape.shape, Shape::odd);
  EXPECT_FALSE(shape.own_mirror);
  // its long box: 6 + 2 x 0.25 (1 + root 2) = 7.2071, up to 7 1/4; height 2 1/2
  EXPECT_EQ(shape.width.cut, in(7.25));
  EXPECT_EQ(shape.height.cut, in(2.5));
}

TEST(Shape, ASharpTemplateIsBluntedAndStillHoldsItsAllowance) {
  const Polygon line = with_allowance(corners({{0, 0}, {8, 0}, {0, 1}}), kQuarter);
  EXPECT_EQ(line.size(), 4U) << "the point at 8, 0 is sharper than a template keeps";
  for (Point p : line) EXPECT_LE(p.x.inches(), 8 + 3.1 * 0.25);
}

TEST(Shape, CornersRepeatedOrOnAStraightSideDoNotMatter) {
  const CutShape shape = cut(corners({{0, 0}, {2, 0}, {4, 0}, {4, 4}, {4, 4}, {0, 4}}));
  EXPECT_EQ(shape.shape, Shape::square);
  EXPECT_EQ(shape.width.cut, in(4.5));
}

TEST(Shape, MetricAndInchAreTheSameExactLengths) {
  for (double finished = 1; finished < 12; finished += 0.5) {
    const Polygon in_inches = corners({{0, 0}, {finished, 0}, {0, finished}});
    const Polygon in_metric = {
        {}, {Length::millimetres(25.4 * finished), {}}, {{}, Length::millimetres(25.4 * finished)}};
    const CutShape inch = cut(in_inches);
    const CutShape metric = cut_shape(in_metric, Length::millimetres(6.35), Ruler::millimetres);
    EXPECT_EQ(inch.width.exact, metric.width.exact);
    EXPECT_LT(metric.width.cut, metric.width.exact + Length::millimetres(1));
    EXPECT_GE(metric.width.cut, metric.width.exact);
  }
}

TEST(Shape, AMetricTriangleTakesItsAllowanceToo) {
  // 100 mm, allowance 7.5 mm: 100 + 7.5 x 3.414214 = 125.6066, up to 126 mm
  const CutShape shape = cut_shape({{}, {Length::millimetres(100), {}}, {{}, Length::millimetres(100)}},
                                   Length::millimetres(7.5), Ruler::millimetres);
  EXPECT_EQ(shape.width.cut, Length::millimetres(126));
}

block::Pattern pattern_of(double width, std::vector<Polygon> patches) {
  block::Pattern pattern;
  pattern.width = pattern.height = in(width);
  pattern.slots = {{"A"}};
  for (Polygon& polygon : patches) pattern.patches.push_back({0, std::move(polygon)});
  return pattern;
}

TEST(Units, AGooseIsALongTriangleBetweenTwoShortOnes) {
  block::Pattern pattern = pattern_of(4, {corners({{0, 2}, {2, 0}, {4, 2}}), corners({{0, 0}, {2, 0}, {0, 2}}),
                                          corners({{2, 0}, {4, 0}, {4, 2}}), rectangle(in(0), in(2), in(4), in(2))});
  const auto geese = geese_of(pattern);
  ASSERT_EQ(geese.size(), 1U);
  EXPECT_EQ(geese[0].goose, 0);
  EXPECT_EQ(geese[0].long_side, in(4));
  EXPECT_TRUE(cornered_patches(pattern).empty());
}

TEST(Units, ACornerCutSquareIsKnown) {
  block::Pattern pattern = pattern_of(
      6, {corners({{2, 0}, {4, 0}, {6, 2}, {6, 4}, {4, 6}, {2, 6}, {0, 4}, {0, 2}}), corners({{0, 0}, {2, 0}, {0, 2}}),
          corners({{4, 0}, {6, 0}, {6, 2}}), corners({{6, 4}, {6, 6}, {4, 6}}), corners({{0, 4}, {2, 6}, {0, 6}})});
  const auto found = cornered_patches(pattern);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].patch, 0);
  EXPECT_EQ(found[0].corners.size(), 4U);
  EXPECT_EQ(found[0].width, in(6));
}

TEST(Units, ThirdsOfATenInchBlockAreOffTheRulerAndMultiplesOfThreeEighthsAreNot) {
  const double third = 10.0 / 3;
  std::vector<Polygon> patches;
  for (int i = 0; i < 9; ++i) patches.push_back(rectangle(in(i % 3 * third), in(i / 3 * third), in(third), in(third)));
  const block::Pattern nine = pattern_of(10, patches);
  EXPECT_FALSE(on_steps(nine, in(0.125)));
  const BlockSizes sizes = sizes_on_ruler(nine, in(0.125), 1);
  // thirds fall on eighths where the block is a multiple of 3/8: 9.75 = 26 x 3/8, 10.125 = 27 x 3/8
  EXPECT_EQ(sizes.smaller, std::vector<Length>{in(9.75)});
  EXPECT_EQ(sizes.larger, std::vector<Length>{in(10.125)});
}

}  // namespace
}  // namespace farflung::cloth
