#include "choice/sizes.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "choice/border_widths.hpp"
#include "small_quilt.hpp"
#include "support/worlds.hpp"

namespace farflung::choice {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

const std::vector<print::Print> kTwo = {print_of("Keel", {20, 0, 0}), print_of("Foam", {90, 0, 0})};

WantedSize wanted(double width, double height, const std::string& name = "") {
  return {name, Length::inches(width), Length::inches(height)};
}

TEST(Sizes, ComeNearestByWholeRowsAndColumns) {
  const quilt::Quilt quilt = squares_quilt(kTwo, 2, {0, 1, 1, 0});
  const auto report = nearest_size(quilt, wanted(52, 68, "lap"));
  ASSERT_TRUE(report.ok());
  // Six-inch blocks: 9 make 54 (8 make 48), 11 make 66 (12 make 72).
  EXPECT_EQ(report->columns, 9);
  EXPECT_EQ(report->rows, 11);
  EXPECT_EQ(report->width, Length::inches(54));
  EXPECT_EQ(report->wider, Length::inches(2));
  EXPECT_EQ(report->taller, Length::inches(-2));
  EXPECT_EQ(report->blocks, 99);
  ASSERT_THAT(report->pieces, SizeIs(1));
  EXPECT_EQ(report->pieces[0].pieces, 99);
  EXPECT_NEAR(report->pieces[0].cut_area, 99 * 6.5 * 6.5, 1e-9);
  EXPECT_EQ(report->dealt_slots, 99);
  EXPECT_NEAR(report->uses_per_print, 49.5, 1e-12);
  EXPECT_EQ(report->says, "11 rows of 9 make 54 in x 66 in: 2 in wider and 2 in shorter than lap, 52 in x 68 in");
}

TEST(Sizes, CountSashingAndBordersIn) {
  quilt::Quilt quilt = squares_quilt(kTwo, 2, {0, 1, 1, 0});
  quilt.setting.sashing = setting::Sashing{Length::inches(1), 1, kNone, true};
  quilt.setting.borders = {{Length::inches(4), 1, setting::Border::Corners::butted, kNone}};
  // n blocks: 7 n + 1 + 8.
  const auto report = nearest_size(quilt, wanted(58, 72));
  EXPECT_EQ(report->columns, 7);
  EXPECT_EQ(report->rows, 9);
  EXPECT_EQ(report->width, Length::inches(58));
  EXPECT_EQ(report->wider, Length());
  EXPECT_EQ(report->says, "9 rows of 7 make 58 in x 72 in: exactly 58 in x 72 in");
}

TEST(Sizes, AgreeWithThePlanInEverySettingAndAreNearerThanOneMoreOrLess) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = support::random_quilt(Seed{3}, world.wanted);
    const auto report = nearest_size(quilt, wanted(61, 83));
    ASSERT_TRUE(report.ok()) << world.name;
    const quilt::Quilt made = resized(quilt, report->rows, report->columns);
    const setting::Plan plan = quilt::plan_of(made);
    EXPECT_EQ(plan.width, report->width) << world.name;
    EXPECT_EQ(plan.height, report->height) << world.name;
    EXPECT_EQ(static_cast<int>(plan.cells.size()), report->blocks) << world.name;
    EXPECT_EQ(static_cast<int>(made.blocks.size()), report->blocks) << world.name;
    for (const Problem& problem : quilt::problems_of(made)) ADD_FAILURE() << world.name << ": " << problem.text();
    for (int by : {-1, 1}) {
      if (report->columns + by < 2 || report->rows + by < 1) continue;
      const setting::Plan other = quilt::plan_of(resized(quilt, report->rows + by, report->columns + by));
      EXPECT_GE(std::abs((other.width - wanted(61, 83).width).inches()) + 1e-6, std::abs(report->wider.inches()));
      EXPECT_GE(std::abs((other.height - wanted(61, 83).height).inches()) + 1e-6, std::abs(report->taller.inches()));
    }
  }
}

TEST(Sizes, AQuiltWithoutBlocksGetsSomeToReckonWith) {
  quilt::Quilt quilt;
  quilt.prints = kTwo;
  quilt.patterns = {support::half_square()};
  const quilt::Quilt made = resized(quilt, 2, 3);
  ASSERT_THAT(made.blocks, SizeIs(6));
  EXPECT_THAT(made.blocks[0].prints, testing::ElementsAre(0, 1));
  EXPECT_TRUE(quilt::problems_of(made).empty());
}

TEST(Sizes, RefuseWhatHasNone) {
  EXPECT_EQ(nearest_size(quilt::Quilt{}, wanted(60, 72)).problems().front().at, "/patterns");
  EXPECT_EQ(nearest_size(squares_quilt(kTwo, 2, {0, 1}), wanted(0, 72)).problems().front().at, "--size");
}

TEST(Borders, ReachTheSizeExactlyWhereBothSidesLackAsMuch) {
  quilt::Quilt quilt = squares_quilt(kTwo, 2, {0, 1, 1, 0});
  const auto report = borders_to_reach(quilt, wanted(20, 20));
  ASSERT_TRUE(report.ok());
  ASSERT_THAT(report->ways, SizeIs(1));
  EXPECT_THAT(report->ways[0].widths, testing::ElementsAre(Length::inches(4)));
  EXPECT_EQ(report->ways[0].says, "a border of 4 in makes 20 in x 20 in, exactly what is wanted");
  EXPECT_TRUE(report->notes.empty());
  EXPECT_EQ(quilt::plan_of(with_border_widths(quilt, report->ways[0].widths)).width, Length::inches(20));
}

TEST(Borders, KeepTheirProportionsAndSayWhatMakesUpAnUnevenRest) {
  quilt::Quilt quilt = squares_quilt(kTwo, 2, {0, 1, 1, 0});
  quilt.setting.borders = {{Length::inches(1), 0, setting::Border::Corners::butted, kNone},
                           {Length::inches(3), 1, setting::Border::Corners::mitred, kNone}};
  const auto report = borders_to_reach(quilt, wanted(28, 32));
  ASSERT_TRUE(report.ok());
  // 8 in lack each side, 10 in above and below: 9 all round is nearest, a quarter of it inside.
  ASSERT_THAT(report->ways, SizeIs(3));
  EXPECT_EQ(report->ways[0].reaches, BorderWidths::Reaches::nearest);
  EXPECT_THAT(report->ways[0].widths, testing::ElementsAre(Length::inches(2.25), Length::inches(6.75)));
  EXPECT_EQ(report->ways[0].wider, Length::inches(2));
  EXPECT_EQ(report->ways[0].taller, Length::inches(-2));
  ASSERT_THAT(report->notes, SizeIs(2));
  EXPECT_THAT(report->notes[0], HasSubstr("mitred"));
  EXPECT_THAT(report->notes[1], HasSubstr("strips of 2 in finished, sewn to the top and the bottom"));
}

TEST(Borders, OfASmallRoomAreAStepWideEachAtLeast) {
  quilt::Quilt quilt = squares_quilt(kTwo, 2, {0, 1, 1, 0});
  quilt.setting.borders = {{Length::inches(0.25), 0, setting::Border::Corners::butted, kNone},
                           {Length::inches(10), 1, setting::Border::Corners::butted, kNone}};
  const auto report = borders_to_reach(quilt, wanted(13, 13));
  ASSERT_TRUE(report.ok());
  EXPECT_THAT(report->ways[0].widths, testing::ElementsAre(Length::inches(0.25), Length::inches(0.25)));
  const auto none = borders_to_reach(quilt, wanted(12, 11));
  ASSERT_FALSE(none.ok());
  EXPECT_THAT(none.problems().front().cause, HasSubstr("no room for a border"));
}

}  // namespace
}  // namespace farflung::choice
