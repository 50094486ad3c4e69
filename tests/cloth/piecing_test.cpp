#include "cloth/piecing.hpp"

#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cloth/world.hpp"

namespace farflung::cloth {
namespace {

Piecing of(const block::Pattern& pattern) { return piecing_of(pattern, kQuarter, kEighths); }

/// Every patch and every step's result is joined once, and one unit is left.
void expect_sound(const block::Pattern& pattern, const Piecing& piecing) {
  block::Pattern with_steps = pattern;
  for (const Step& step : piecing.steps) with_steps.piecing.push_back({step.join, step.press});
  EXPECT_TRUE(block::problems_of(with_steps, "/p").empty());
}

TEST(Piecing, AnOrderOfStraightSeamsIsFoundWhereThePatternHasNone) {
  for (const auto& pattern :
       {uneven_rails(), half_squares(4), hourglass(6), two_geese(), corner_cut(6, 2), nine_patch(9)}) {
    const Piecing piecing = of(pattern);
    EXPECT_FALSE(piecing.given);
    EXPECT_TRUE(piecing.straight) << pattern.id;
    EXPECT_EQ(piecing.steps.size(), pattern.patches.size() - 1) << pattern.id;
    expect_sound(pattern, piecing);
    for (const Step& step : piecing.steps) EXPECT_EQ(step.seams.size(), 1U) << pattern.id;
  }
}

/// Five rectangles around a square, each ending against the next: the classic that no straight seam parts.
block::Pattern whirl() {
  return pattern_of("whirl", 6, {"A", "B"},
                    {{0, rectangle(in(0), in(0), in(4), in(2))},
                     {0, rectangle(in(4), in(0), in(2), in(4))},
                     {0, rectangle(in(2), in(4), in(4), in(2))},
                     {0, rectangle(in(0), in(2), in(2), in(4))},
                     {1, rectangle(in(2), in(2), in(2), in(2))}});
}

TEST(Piecing, ABlockThatNeedsSetInSeamsSaysSo) {
  const Piecing piecing = of(whirl());
  EXPECT_FALSE(piecing.straight);
  EXPECT_TRUE(piecing.steps.empty());
  EXPECT_EQ(piecing.set_in.size(), 5U);
  ASSERT_FALSE(piecing.remarks.empty());
  EXPECT_NE(piecing.remarks[0].find("set-in"), std::string::npos);
}

TEST(Piecing, UnitsAreTrimmedToFinishedAndHalfAnInch) {
  // hourglass of 6: two triangles make a larger one, nothing to trim; the block: 6 1/2 x 6 1/2
  const Piecing piecing = of(hourglass(6));
  ASSERT_EQ(piecing.steps.size(), 3U);
  EXPECT_FALSE(piecing.steps[0].fills_box);
  EXPECT_TRUE(piecing.steps[2].fills_box);
  EXPECT_EQ(piecing.steps[2].trim_width, in(6.5));
  EXPECT_NE(piecing.steps[2].says.find("6 1/2 x 6 1/2 in"), std::string::npos) << piecing.steps[2].says;
}

TEST(Piecing, RowsOfANinePatchNest) {
  const Piecing piecing = of(nine_patch(9));
  int meets = 0, nests = 0;
  for (const Step& step : piecing.steps) {
    for (const Seam& seam : step.seams) {
      meets += seam.meets;
      nests += seam.nests;
    }
  }
  // Two seams between rows, two meetings on each.
  EXPECT_EQ(meets, 4);
  EXPECT_EQ(nests, 4);
  EXPECT_TRUE(piecing.remarks.empty());
}

TEST(Piecing, RailsHaveNothingToNestAndSaySo) {
  const Piecing piecing = of(uneven_rails());
  ASSERT_EQ(piecing.remarks.size(), 1U);
  EXPECT_NE(piecing.remarks[0].find("nothing has to nest"), std::string::npos);
}

TEST(Piecing, ThePatternsOwnStepsAreKept) {
  block::Pattern rails = uneven_rails();
  using block::Pressing;
  using block::Unit;
  const Unit a{Unit::Kind::patch, 0}, background{Unit::Kind::patch, 1}, b{Unit::Kind::patch, 2};
  const Unit first{Unit::Kind::step, 0};
  rails.piecing = {{{a, background}, {Pressing::Kind::toward, a}}, {{first, b}, {Pressing::Kind::toward, b}}};
  const Piecing piecing = of(rails);
  EXPECT_TRUE(piecing.given);
  // A 4 + background 1 = 5 high: 9 1/2 x 5 1/2; whole: 9 1/2 x 9 1/2
  EXPECT_EQ(piecing.steps[0].trim_height, in(5.5));
  EXPECT_EQ(piecing.steps[1].trim_height, in(9.5));
  EXPECT_EQ(piecing.steps[0].seams[0].length, in(9));

  quilt::Quilt quilt = quilt_of(rails, 1, 1, 3);
  quilt.blocks[0].prints = {0, 1, 2};
  EXPECT_EQ(press_said(quilt, quilt.blocks[0], piecing, 0), "toward Kelp");
  EXPECT_EQ(press_said(quilt, quilt.blocks[0], piecing, 1), "toward Foghorn");
  quilt.blocks[0].press = block::Block::Press::other;
  EXPECT_EQ(press_said(quilt, quilt.blocks[0], piecing, 0), "toward Buoy") << "the background, the other way";
  EXPECT_EQ(press_said(quilt, quilt.blocks[0], piecing, 1), "toward Buoy") << "the neighbour of B is the background";
}

TEST(Piecing, AStepOfThePatternsOwnThatTurnsACornerSaysHowItIsSewn) {
  using block::Unit;
  block::Pattern pattern = whirl();
  const auto patch = [](int index) { return Unit{Unit::Kind::patch, index}; };
  const auto step = [](int index) { return Unit{Unit::Kind::step, index}; };
  pattern.piecing = {{{patch(0), patch(4)}, {}},
                     {{step(0), patch(1)}, {}},
                     {{step(1), patch(2)}, {}},
                     {{step(2), patch(3)}, {}}};  // the last meets the first rectangle and the square
  const Piecing piecing = of(pattern);
  EXPECT_TRUE(piecing.given);
  EXPECT_FALSE(piecing.straight);
  ASSERT_FALSE(piecing.remarks.empty());
  EXPECT_THAT(piecing.remarks[0], testing::HasSubstr("Step 4 turns a corner"));
}

TEST(Piecing, SeamsPressedTheSameWayWhereTheyMeetAreCounted) {
  using block::Pressing;
  using block::Unit;
  block::Pattern four = pattern_of("four", 4, {"A", "B"},
                                   {{0, rectangle(in(0), in(0), in(2), in(2))},
                                    {1, rectangle(in(2), in(0), in(2), in(2))},
                                    {1, rectangle(in(0), in(2), in(2), in(2))},
                                    {0, rectangle(in(2), in(2), in(2), in(2))}});
  const auto patch = [](int index) { return Unit{Unit::Kind::patch, index}; };
  const auto step = [](int index) { return Unit{Unit::Kind::step, index}; };
  // Both rows toward their left square: the seams lie the same way where the rows are joined.
  four.piecing = {{{patch(0), patch(1)}, {Pressing::Kind::toward, patch(0)}},
                  {{patch(2), patch(3)}, {Pressing::Kind::toward, patch(2)}},
                  {{step(0), step(1)}, {Pressing::Kind::toward, step(0)}}};
  EXPECT_THAT(of(four).remarks,
              testing::ElementsAre(testing::HasSubstr("1 of 1 meeting seams inside this block do not nest")));
}

TEST(Piecing, OpenAndSpunAreSaidAsThePatternHasThem) {
  block::Pattern half = half_squares(4);
  half.piecing = {{{{block::Unit::Kind::patch, 0}, {block::Unit::Kind::patch, 1}}, {block::Pressing::Kind::spun, {}}}};
  quilt::Quilt quilt = quilt_of(half, 1, 1, 2);
  EXPECT_EQ(press_said(quilt, quilt.blocks[0], of(half), 0), "spun");
}

TEST(Piecing, ChainsListPairsOfPrintsWithHowMany) {
  // Four blocks of half squares: Kelp with Foghorn three times, Foghorn with Kelp once: two lines.
  quilt::Quilt quilt = quilt_of(half_squares(4), 2, 2, 2);
  for (int i = 0; i < 4; ++i) quilt.blocks[i].prints = i < 3 ? std::vector<int>{0, 1} : std::vector<int>{1, 0};
  const auto lines = chain_list(quilt);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0].says, "Kelp with Foghorn: 3");
  EXPECT_THAT(lines[0].blocks, ::testing::ElementsAre(0, 1, 2));
  EXPECT_EQ(lines[1].says, "Foghorn with Kelp: 1");
}

TEST(Piecing, ChainsOfWholeQuiltsCountEverySeam) {
  const quilt::Quilt quilt = quilt_of(nine_patch(9), 3, 3, 4);
  int seams = 0;
  for (const ChainLine& line : chain_list(quilt)) seams += line.count;
  EXPECT_EQ(seams, 9 * 8);
}

TEST(Piecing, PilesFollowThePressing) {
  quilt::Quilt quilt = quilt_of(nine_patch(9), 1, 3, 2);
  quilt.blocks[0].press = block::Block::Press::drawn;
  quilt.blocks[2].press = block::Block::Press::other;
  const Piles piles = pressing_piles(quilt);
  EXPECT_THAT(piles.drawn, ::testing::ElementsAre(0));
  EXPECT_THAT(piles.undecided, ::testing::ElementsAre(1));
  EXPECT_THAT(piles.other, ::testing::ElementsAre(2));
}

}  // namespace
}  // namespace farflung::cloth
