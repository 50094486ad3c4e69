#include "sheet/templates.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "sheet/reading.hpp"
#include "support/patterns.hpp"

namespace farflung::sheet {
namespace {

Point at(double x, double y) { return {Length::inches(x), Length::inches(y)}; }

quilt::Quilt quilt_of(const block::Pattern& pattern) {
  support::Wanted wanted;
  wanted.patterns = {pattern};
  return dressed(Seed{4}, wanted);
}

std::vector<Page> pages_for(const quilt::Quilt& quilt) { return templates({quilt, quilt::plan_of(quilt), letter()}); }

/// Unbroken closed or open strokes whose ends are further apart than any mark's: the cutting lines.
draw::Box extent_of_strokes(const Page& page, double width) {
  draw::Outline all;
  for (const draw::Item& item : page.display.items) {
    const auto* line = std::get_if<draw::Line>(&item);
    if (line == nullptr || line->width != width) continue;
    all.insert(all.end(), line->points.begin(), line->points.end());
  }
  return draw::box_of(all);
}

TEST(Templates, RulerShapesNeedNone) {
  EXPECT_TRUE(templates_of(quilt_of(support::nine_patch())).empty());
  EXPECT_TRUE(pages_for(quilt_of(support::uneven_rails())).empty());
}

TEST(Templates, AreCheckedByASquareInTheQuiltsOwnUnits) {
  quilt::Quilt quilt = quilt_of(support::pinwheel());
  const auto words = [&] { return words_on(pages_for(quilt).front()); };
  const auto has = [](const std::vector<std::string>& all, const std::string& one) {
    return std::find(all.begin(), all.end(), one) != all.end();
  };
  EXPECT_TRUE(has(words(), "1 in"));
  quilt.units = quilt::Units::centimetres;
  EXPECT_TRUE(has(words(), "2.5 cm"));
  EXPECT_FALSE(has(words(), "1 in"));
}

TEST(Templates, PatchesOfOneShapeShareOneTemplateHoweverTurned) {
  const auto found = templates_of(quilt_of(support::pinwheel()));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].count + found[0].reversed, 8);
  EXPECT_EQ(found[0].slots, (std::vector<std::string>{"A", "B"}));
}

TEST(Templates, AShapeThatIsNotItsOwnMirrorIsCountedTurnedOver) {
  // A square cut by a line from the top left corner to a third of the right side, and its mirror beside it.
  block::Pattern pattern = support::square();
  pattern.width = Length::inches(6);
  pattern.height = Length::inches(6);
  pattern.patches = {{0, {at(0, 0), at(3, 0), at(3, 2)}},
                     {0, {at(0, 0), at(3, 2), at(3, 6), at(0, 6)}},
                     {0, {at(3, 0), at(6, 0), at(3, 2)}},
                     {0, {at(6, 0), at(6, 6), at(3, 6), at(3, 2)}}};
  const auto found = templates_of(quilt_of(pattern));
  ASSERT_EQ(found.size(), 2U);
  for (const Template& shape : found) {
    EXPECT_EQ(shape.count, 1);
    EXPECT_EQ(shape.reversed, 1);
  }
}

TEST(Templates, AreTrueToScaleWithTheirSeamAllowance) {
  // A half square of 6 in: the square that is cut is 6 + 1/4 (2 + root 2) in, the template's box as large.
  const auto pages = pages_for(quilt_of(support::half_square()));
  ASSERT_EQ(pages.size(), 1U);
  const draw::Box cutting = extent_of_strokes(pages[0], 1.1);
  EXPECT_NEAR(cutting.width / kPointsPerInch, 6.8536, 1e-3);
  EXPECT_NEAR(cutting.height / kPointsPerInch, 6.8536, 1e-3);
}

TEST(Templates, EveryPageHasASquareOfOneInchToCheckBy) {
  block::Pattern large = support::half_square();
  const auto pages = pages_for(quilt_of(block::scaled(large, Length::inches(16), Length::inches(16))));
  EXPECT_GT(pages.size(), 3U);
  for (const Page& page : pages) {
    const bool has = std::any_of(page.display.items.begin(), page.display.items.end(), [](const draw::Item& item) {
      const auto* line = std::get_if<draw::Line>(&item);
      if (line == nullptr || !line->closed) return false;
      const draw::Box box = draw::box_of(line->points);
      return std::abs(box.width - 72) < 1e-9 && std::abs(box.height - 72) < 1e-9;
    });
    EXPECT_TRUE(has);
  }
}

TEST(Templates, ALargeOneLosesNothingBetweenItsSheets) {
  const quilt::Quilt quilt = quilt_of(block::scaled(support::half_square(), Length::inches(16), Length::inches(16)));
  const auto pages = pages_for(quilt);
  // The two short sides lie along sheet edges' own axes: what is drawn of them, laps counted once, is their length.
  double drawn = 0;
  for (const Page& page : pages) {
    for (const draw::Item& item : page.display.items) {
      const auto* line = std::get_if<draw::Line>(&item);
      if (line != nullptr && line->width == 1.1) drawn += draw::length(line->points[1] - line->points[0]);
    }
  }
  const Template shape = templates_of(quilt).front();
  double around = 0;
  for (std::size_t i = 0; i < shape.cutting.size(); ++i) {
    around +=
        draw::length(draw::inches(shape.cutting[(i + 1) % shape.cutting.size()]) - draw::inches(shape.cutting[i]));
  }
  EXPECT_GE(drawn / kPointsPerInch, around);
  EXPECT_LE(drawn / kPointsPerInch, around * 1.35);
}

TEST(Templates, SmallPartsOfALargeOneShareAPage) {
  // 9 in finished is 9 1/2 by 9 1/2 in to cut: one part as large as a page, two strips and a corner beside it.
  const auto octagon = [] {
    block::Pattern pattern = support::square();
    const auto corner = [](double x, double y) { return Point{Length::inches(x), Length::inches(y)}; };
    pattern.width = pattern.height = Length::inches(9);
    pattern.patches = {{0,
                        {corner(3, 0), corner(6, 0), corner(9, 3), corner(9, 6), corner(6, 9), corner(3, 9),
                         corner(0, 6), corner(0, 3)}}};
    return pattern;
  };
  EXPECT_EQ(pages_for(quilt_of(octagon())).size(), 2U);
}

TEST(Templates, NothingIsDrawnBeyondTheMargins) {
  for (const double size : {4.0, 9.0, 16.0}) {
    const auto quilt = quilt_of(block::scaled(support::pinwheel(), Length::inches(size), Length::inches(size)));
    const draw::Box within = draw::Box{0, 0, letter().width, letter().height}.inset(kMargin - 1);
    for (const Page& page : pages_for(quilt)) EXPECT_TRUE(within.holds(extent_of_strokes(page, 1.1)));
  }
}

}  // namespace
}  // namespace farflung::sheet
