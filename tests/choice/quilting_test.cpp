#include "choice/quilting.hpp"

#include <cmath>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace farflung::choice {
namespace {

using Style = QuiltingOptions::Style;

QuiltingOptions with(Style style, double spacing) {
  QuiltingOptions options;
  options.style = style;
  options.spacing = Length::inches(spacing);
  return options;
}

TEST(Quilting, StraightLinesMeasureTheirRowsAndTheWayBetween) {
  const auto quilting = quilted(Length::inches(60), Length::inches(72), with(Style::lines, 2));
  ASSERT_TRUE(quilting.ok());
  EXPECT_NEAR(quilting->path_inches, 36 * 60 + 35 * 2, 1e-6);
  EXPECT_NEAR(quilting->top_inches, 1.4 * 2230, 1e-6);
  EXPECT_NEAR(quilting->bobbin_inches, 1.4 * 2230, 1e-6);
  EXPECT_THAT(quilting->says, testing::HasSubstr("about 87 yd (79 m) of thread on the top and as much on the bobbin"));
}

TEST(Quilting, TheFactorIsAdjustable) {
  QuiltingOptions options = with(Style::lines, 2);
  options.factor = 2;
  const auto quilting = quilted(Length::inches(60), Length::inches(72), options);
  EXPECT_NEAR(quilting->top_inches, 2 * quilting->path_inches, 1e-9);
}

TEST(Quilting, EveryPebbleIsStitchedOnceWithHalfACircleDownToEachNextRow) {
  // Pebbles of 2 in on 20 x 20: rows of 10 and 9 by turns, sqrt(3) apart, 11 of them.
  const auto quilting = quilted(Length::inches(20), Length::inches(20), with(Style::pebbles, 2));
  ASSERT_TRUE(quilting.ok());
  const double circles = 6 * 10 + 5 * 9;
  const double expected = std::numbers::pi * (2 * circles + 10);
  EXPECT_NEAR(quilting->path_inches, expected, 0.003 * expected);
  EXPECT_LT(quilting->path_inches, expected);
}

TEST(Quilting, NeverLeavesTheTopNorJumps) {
  for (const Style style : {Style::lines, Style::waves, Style::loops, Style::pebbles}) {
    for (const double spacing : {0.5, 1.7, 4.0, 7.9}) {
      const Length width = Length::inches(36.5), height = Length::inches(51.25);
      const auto quilting = quilted(width, height, with(style, spacing));
      ASSERT_TRUE(quilting.ok());
      EXPECT_NEAR(quilting->spacing.inches(), spacing, 0.3 * spacing);
      for (std::size_t i = 0; i < quilting->path.size(); ++i) {
        const Point at = quilting->path[i];
        ASSERT_TRUE(Length() <= at.x && at.x <= width && Length() <= at.y && at.y <= height);
        if (i == 0 || style == Style::lines) continue;
        const Point by = at - quilting->path[i - 1];
        ASSERT_LE(std::hypot(by.x.inches(), by.y.inches()), 1.1 * quilting->spacing.inches())
            << quilting_style_name(style);
      }
    }
  }
}

TEST(Quilting, ReachesEveryPartOfTheTop) {
  // No point of the top lies further from the stitches than the spacing.
  for (const Style style : {Style::lines, Style::waves, Style::loops, Style::pebbles}) {
    const auto quilting = quilted(Length::inches(30), Length::inches(24), with(style, 2));
    ASSERT_TRUE(quilting.ok());
    for (double x = 0; x <= 30; x += 1.5) {
      for (double y = 0; y <= 24; y += 1.5) {
        double nearest = 1e9;
        for (std::size_t i = 1; i < quilting->path.size(); ++i) {
          const Point a = quilting->path[i - 1], b = quilting->path[i];
          const double ax = a.x.inches(), ay = a.y.inches(), bx = b.x.inches() - ax, by = b.y.inches() - ay;
          const double t = std::clamp(((x - ax) * bx + (y - ay) * by) / (bx * bx + by * by), 0.0, 1.0);
          nearest = std::min(nearest, std::hypot(ax + t * bx - x, ay + t * by - y));
        }
        EXPECT_LE(nearest, 2.0) << quilting_style_name(style) << " at " << x << ", " << y;
      }
    }
  }
}

TEST(Quilting, RefusesWhatCannotBeStitched) {
  const Length side = Length::inches(20);
  EXPECT_EQ(quilted(side, side, with(Style::loops, 0)).problems().front().at, "--spacing");
  EXPECT_EQ(quilted(side, side, with(Style::loops, 11)).problems().front().at, "--spacing");
  EXPECT_EQ(quilted(Length(), side, with(Style::loops, 2)).problems().front().at, "quilt");
  QuiltingOptions options;
  options.factor = 0.5;
  EXPECT_EQ(quilted(side, side, options).problems().front().at, "--factor");
}

TEST(Quilting, StylesAreNamedByTheirWords) {
  for (const char* word : {"lines", "waves", "loops", "pebbles"}) {
    EXPECT_STREQ(quilting_style_name(*quilting_style_named(word)), word);
  }
  EXPECT_FALSE(quilting_style_named("feathers").has_value());
}

}  // namespace
}  // namespace farflung::choice
