#include "score/nesting.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "base/rng.hpp"
#include "score/measure.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::score {
namespace {

using Press = block::Block::Press;
using Way = SeamEnd::Way;

block::Unit patch(int index) { return {block::Unit::Kind::patch, index}; }
block::Unit step(int index) { return {block::Unit::Kind::step, index}; }
block::PiecingStep sewn(block::Unit a, block::Unit b, block::Unit toward) {
  return {{a, b}, {block::Pressing::Kind::toward, toward}};
}

/// Two rows pressed opposite ways, so that the four seams nest at the middle; the long seam pressed down.
block::Pattern pressed_four_patch() {
  block::Pattern pattern = support::four_patch();
  pattern.piecing = {sewn(patch(0), patch(1), patch(1)), sewn(patch(2), patch(3), patch(2)),
                     sewn(step(0), step(1), step(1))};
  return pattern;
}

quilt::Quilt of_pattern(const block::Pattern& pattern, int rows, int columns) {
  quilt::Quilt quilt = support::quilt_of_one_pattern({1}, pattern, rows, columns, 6);
  std::fill(quilt.layout.turn.begin(), quilt.layout.turn.end(), Turn());
  return quilt;
}

TEST(SeamEnds, LieWhereSeamsReachTheEdgeAndSayWhichWayTheyArePressed) {
  const auto ends = seam_ends(pressed_four_patch());
  ASSERT_EQ(ends.size(), 4u);
  const auto on = [&](int edge) {
    return *std::find_if(ends.begin(), ends.end(), [&](const SeamEnd& end) { return end.edge == edge; });
  };
  // Seen from above the top edge, the right patch lies to the left.
  EXPECT_EQ(on(0).way, Way::left);
  EXPECT_EQ(on(0).at, (Point{Length::inches(3), Length()}));
  EXPECT_EQ(on(2).way, Way::left);   // pressed to the left patch, seen from below
  EXPECT_EQ(on(1).way, Way::left);   // pressed down, seen from the right
  EXPECT_EQ(on(3).way, Way::right);  // pressed down, seen from the left
}

TEST(SeamEnds, AnOpenSeamLiesNeitherWayAndAPatternWithoutPiecingTellsNothing) {
  block::Pattern pattern = pressed_four_patch();
  pattern.piecing[0].press = {block::Pressing::Kind::open, {}};
  int open = 0;
  for (const SeamEnd& end : seam_ends(pattern)) open += end.way == Way::open ? 1 : 0;
  EXPECT_EQ(open, 1);
  EXPECT_TRUE(seam_ends(support::four_patch()).empty());
}

TEST(Nesting, IsTheSameWordOnBothFacingEdges) {
  quilt::Quilt quilt = of_pattern(pressed_four_patch(), 1, 2);
  quilt.blocks[0].press = quilt.blocks[1].press = Press::drawn;
  Nesting nesting = nesting_of(quilt);
  ASSERT_EQ(nesting.meetings.size(), 1u);
  EXPECT_EQ(nesting.unnested, 1);  // both press their long seam down
  EXPECT_EQ(nesting.press_again.size(), 1u);
  EXPECT_EQ(nesting.unnested_then, 0);
  quilt.layout.turn[1] = Turn::quarters(2);  // the seam and its pressing turn with the block: now up
  EXPECT_EQ(nesting_of(quilt).unnested, 0);
  quilt.layout.turn[1] = Turn();
  quilt.blocks[1].press = Press::other;
  EXPECT_EQ(nesting_of(quilt).unnested, 0);
}

TEST(Nesting, PressesUnpressedBlocksSoThatAllNestWhereTheMeetingsCanBeTwoColoured) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    quilt::Quilt quilt = of_pattern(pressed_four_patch(), 5, 6);
    const Nesting nesting = nesting_of(quilt);
    EXPECT_EQ(nesting.meetings.size(), 5u * 5 + 4u * 6);
    EXPECT_TRUE(nesting.exact);
    EXPECT_EQ(nesting.unnested, 0);
    EXPECT_TRUE(nesting.odd_rings.empty());
    Rng rng({seed});
    for (Turn& turn : quilt.layout.turn) turn = Turn::quarters(static_cast<int>(rng.below(4)));
    const Nesting turned = nesting_of(quilt);
    EXPECT_EQ(turned.nested + turned.unnested, 49);
    EXPECT_TRUE(turned.exact);
    EXPECT_EQ(static_cast<int>(turned.odd_rings.size()), turned.unnested) << "each is named by the ring it closes";
  }
}

TEST(Nesting, UnpressedBlocksAreSetToBePressedSoThatSeamsNestAndPressedOnesStay) {
  quilt::Quilt quilt = of_pattern(pressed_four_patch(), 4, 4);
  quilt.blocks[quilt.layout.block[0]].press = Press::other;
  const quilt::Quilt pressed = pressed_to_nest(quilt);
  EXPECT_EQ(pressed.blocks[quilt.layout.block[0]].press, Press::other);
  for (const block::Block& block : pressed.blocks) EXPECT_TRUE(block.press.has_value());
  EXPECT_EQ(nesting_of(pressed).unnested, 0);
}

TEST(Nesting, EndsThatArePressedOpenNeitherNestNorFailTo) {
  block::Pattern pattern = pressed_four_patch();
  pattern.piecing[0].press = {block::Pressing::Kind::open, {}};
  const Nesting nesting = nesting_of(of_pattern(pattern, 2, 2));
  EXPECT_EQ(nesting.open, 2) << "where the upper blocks stand on the lower ones";
  EXPECT_EQ(nesting.nested, 2);
  EXPECT_EQ(nesting.unnested, 0);
}

TEST(Nesting, OfBlocksThatAreAllPressedIsCountedAsTheyAre) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    quilt::Quilt quilt = of_pattern(pressed_four_patch(), 3, 4);
    Rng rng({seed});
    for (block::Block& block : quilt.blocks) block.press = rng.below(2) == 0 ? Press::drawn : Press::other;
    quilt.goals.nest = 1;
    const int by_hand = nesting_of(quilt).unnested;
    EXPECT_GT(by_hand, 0);
    EXPECT_EQ(Measure(quilt).terms(quilt.layout).unnested, by_hand);
  }
}

TEST(Nesting, HasNothingToDoWithSashing) {
  quilt::Quilt quilt = of_pattern(pressed_four_patch(), 3, 3);
  setting::Sashing sashing;
  sashing.width = Length::inches(1);
  sashing.print = 0;
  quilt.setting.sashing = sashing;
  EXPECT_TRUE(nesting_of(quilt).nothing_to_nest());
  for (const block::Block& block : pressed_to_nest(quilt).blocks) EXPECT_FALSE(block.press.has_value());
}

TEST(Nesting, MeetsOnPointTooAndNotInBricksWhoseSeamsLieApart) {
  quilt::Quilt straight = of_pattern(pressed_four_patch(), 3, 3);
  support::Wanted wanted;
  wanted.kind = setting::Setting::Kind::on_point;
  wanted.rows = wanted.columns = 3;
  wanted.patterns = {pressed_four_patch()};
  EXPECT_EQ(nesting_of(support::random_quilt({1}, wanted)).meetings.size(), 16u);  // 13 blocks, 16 joins
  EXPECT_EQ(nesting_of(straight).meetings.size(), 12u);
}

}  // namespace
}  // namespace farflung::score
