#include "choice/colourway.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "choice/supplies.hpp"
#include "small_quilt.hpp"
#include "support/worlds.hpp"

namespace farflung::choice {
namespace {

using testing::ElementsAre;
using testing::SizeIs;

TEST(Colourway, MatchesASecondBundleValueForValue) {
  const quilt::Quilt quilt = squares_quilt({print_of("Kelp", {48, -30, 10}), print_of("Foam", {90, 0, 3}),
                                            print_of("Keel", {20, 0, -5}), print_of("Spare", {5, 0, 0})},
                                           2, {0, 1, 2, 0});
  const std::vector<print::Print> bundle = {print_of("Buoy", {45, 55, 35}), print_of("Hull", {25, 10, -5}),
                                            print_of("Sail", {86, 2, 8}), print_of("Sand", {70, 4, 20})};
  const auto colourway = matched_by_value(quilt, bundle);
  ASSERT_TRUE(colourway.ok());
  std::vector<std::string> says;
  for (const ValueMatch& match : colourway->matches) says.push_back(match.says);
  EXPECT_THAT(says, ElementsAre("Sail (value 86) for Foam (value 90)", "Buoy (value 45) for Kelp (value 48)",
                                "Hull (value 25) for Keel (value 20)"));
  EXPECT_NEAR(colourway->mean_difference, 4, 1e-12);
  EXPECT_THAT(colourway->left_over, ElementsAre(3));
  EXPECT_EQ(colourway->quilt.layout, quilt.layout);
  EXPECT_EQ(colourway->quilt.prints[0].name, "Buoy");
  EXPECT_EQ(colourway->quilt.prints[3].name, "Spare");
  EXPECT_TRUE(quilt::problems_of(colourway->quilt).empty());
}

TEST(Colourway, OfABundleTooSmallIsAProblem) {
  const quilt::Quilt quilt = squares_quilt({print_of("Kelp", {48, 0, 0}), print_of("Foam", {90, 0, 3})}, 2, {0, 1});
  const auto colourway = matched_by_value(quilt, {print_of("Buoy", {45, 55, 35})});
  ASSERT_FALSE(colourway.ok());
  EXPECT_EQ(colourway.problems().front().cause, "the quilt is made of 2 prints, this bundle has 1");
}

TEST(Colourway, KeepsIdsApartWhereTheBundlesUseTheSame) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = support::random_quilt(Seed{1}, world.wanted);
    std::vector<print::Print> bundle = quilt.prints;
    std::reverse(bundle.begin(), bundle.end());
    bundle.push_back(print_of("Extra", {50, 0, 0}));
    const auto colourway = matched_by_value(quilt, bundle);
    ASSERT_TRUE(colourway.ok());
    EXPECT_NEAR(colourway->mean_difference, 0, 1e-12) << world.name;
    for (const Problem& problem : quilt::problems_of(colourway->quilt)) ADD_FAILURE() << problem.text();
  }
}

TEST(Replaced, PutsANewPrintInTheOldOnesPlacesAndAnOwnPrintToo) {
  const quilt::Quilt quilt = squares_quilt({print_of("Kelp", {48, 0, 0}), print_of("Foam", {90, 0, 3})}, 2, {0, 1});
  const quilt::Quilt fresh = replaced(quilt, 0, {print_of("Foghorn", {40, 0, 0}), kNone});
  EXPECT_EQ(fresh.prints[0].name, "Foghorn");
  EXPECT_EQ(fresh.blocks[0].prints, quilt.blocks[0].prints);
  EXPECT_FALSE(fresh.prints[0].code.empty());
  const quilt::Quilt own = replaced(quilt, 0, {quilt.prints[1], 1});
  EXPECT_THAT(own.blocks[0].prints, ElementsAre(1));
  EXPECT_EQ(own.prints[0].name, "Kelp");
}

TEST(Supplies, AreListedByThePartThatPrintsPlay) {
  quilt::Quilt quilt =
      squares_quilt({print_of("Foam", {92, 0, 0}), print_of("Sail", {88, 0, 0}), print_of("Kelp", {52, 0, 0}),
                     print_of("Keel", {20, 0, 0}), print_of("Hull", {25, 0, 0}), print_of("Buoy", {45, 55, 35})},
                    3, {0, 1, 2, 3, 4, 3});
  quilt.setting.borders = {{Length::inches(4), 5, setting::Border::Corners::butted, kNone}};
  quilt.binding = quilt::Binding{3, Length::inches(2.5), false};
  const SupplyList list = supplies_of(quilt);
  EXPECT_EQ(list.says, "two lights, one medium, two darks, one border print, one binding print");
  ASSERT_THAT(list.lines, SizeIs(5));
  EXPECT_THAT(list.lines[2].prints, ElementsAre(3, 4));
  EXPECT_EQ(list.lines[2].pieces, 3);
  EXPECT_NEAR(list.lines[2].cut_area, 3 * 6.5 * 6.5, 1e-9);
  EXPECT_NEAR(list.lines[2].largest_share, 2 * 6.5 * 6.5, 1e-9);
  EXPECT_EQ(list.lines[2].says, "two darks, at most 85 sq in of each");
  // 18 x 12 of blocks with 4 in all round: 26 x 20.
  EXPECT_NEAR(list.lines[4].cut_area, (92 + 10) * 2.5, 1e-9);
  EXPECT_EQ(list.lines[3].pieces, 4);
}

TEST(Supplies, ListWhatHasNoPrintYetAndEveryWorld) {
  quilt::Quilt quilt = squares_quilt({print_of("Foam", {92, 0, 0})}, 1, {0});
  quilt.backing = quilt::Backing{};
  const SupplyList list = supplies_of(quilt);
  EXPECT_EQ(list.says, "one medium, one backing print");
  EXPECT_TRUE(list.lines[1].prints.empty());
  EXPECT_NEAR(list.lines[1].cut_area, 14 * 14, 1e-9);
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt other = support::random_quilt(Seed{2}, world.wanted);
    EXPECT_FALSE(supplies_of(other).lines.empty()) << world.name;
  }
}

}  // namespace
}  // namespace farflung::choice
