#include "wall/read.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "wall_bench/trial.hpp"

namespace farflung::wall {
namespace {

using wall_bench::Tally;
using wall_bench::tally_of;
using wall_bench::Wall;
using wall_bench::Wanted;

Wanted small(int pattern) {
  Wanted wanted;
  wanted.rows = 4;
  wanted.columns = 5;
  wanted.prints = 12;
  wanted.pattern = pattern;
  wanted.pixels = {1000, 750};
  return wanted;
}

/// The cloth of all these walls is made once.
class ReadWall : public ::testing::Test {
 protected:
  static void SetUpTestSuite() { wall_bench::quilt_of(small(0), Seed{1}); }
};

/// Straight on, evenly lit, blocks neatly hung.
Wall tidy(const Wanted& wanted, Seed seed) {
  simulator::Shot shot;
  shot.camera.pixels = wanted.pixels;
  return wall_of(wanted, {}, shot, seed);
}

ReadOptions given(const Wall& wall) {
  ReadOptions options;
  options.corners = wall.corners;
  return options;
}

TEST_F(ReadWall, FindsWhatIsSwappedAndWhatIsTurned) {
  const Wall wall = tidy(small(2), Seed{3});
  const auto read = read_wall(wall.picture, wall.quilt, wall.swatches, given(wall));
  ASSERT_TRUE(read.ok());
  const Tally tally = tally_of(wall, *read);
  EXPECT_EQ(tally.right, tally.cells);
  EXPECT_EQ(tally.turns_right, tally.turns);
  std::set<int> wrong, found;
  for (std::size_t c = 0; c < wall.quilt.layout.block.size(); ++c) {
    const setting::Arrangement& truth = wall.photograph.layout;
    if (truth.block[c] != wall.quilt.layout.block[c] || !(truth.turn[c] == wall.quilt.layout.turn[c])) {
      wrong.insert(static_cast<int>(c));
    }
  }
  for (const Difference& difference : read->differs) found.insert(difference.cell);
  EXPECT_EQ(found, wrong);
}

TEST_F(ReadWall, FindsTheGridItself) {
  const Wall wall = tidy(small(1), Seed{4});
  const auto read = read_wall(wall.picture, wall.quilt, wall.swatches);
  ASSERT_TRUE(read.ok());
  const double block = (wall.corners[1][0] - wall.corners[0][0]) / 5;
  for (std::size_t k = 0; k < 4; ++k) {
    EXPECT_NEAR(read->corners.front()[k][0], wall.corners[k][0], 0.1 * block);
    EXPECT_NEAR(read->corners.front()[k][1], wall.corners[k][1], 0.1 * block);
  }
  EXPECT_EQ(tally_of(wall, *read).right, 20);
}

double farthest_apart(const photo::Corners& a, const photo::Corners& b) {
  double most = 0;
  for (std::size_t k = 0; k < 4; ++k) most = std::max(most, std::hypot(a[k][0] - b[k][0], a[k][1] - b[k][1]));
  return most;
}

TEST_F(ReadWall, TakesTheCornersFromPrintedCardsOnAPatternedFloor) {
  simulator::Hanging hanging;
  hanging.wall = {simulator::Surface::Kind::wood, 0x6b4a35, 0.02};
  wall_bench::pin_cards(hanging);
  const Wall wall = wall_of(small(2), hanging, simulator::wall_shot(Seed{3}, {1000, 750}), Seed{5});
  const auto read = read_wall(wall.picture, wall.quilt, wall.swatches);
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->cards.front(), 4);
  const double inch = (wall.corners[1][0] - wall.corners[0][0]) / (5 * 6.75);
  EXPECT_LT(farthest_apart(read->corners.front(), wall.corners), 0.35 * inch);
  EXPECT_EQ(tally_of(wall, *read).right, 20);
}

TEST_F(ReadWall, WhereOneCardIsMissingTheBlocksThemselvesSayItsCorner) {
  simulator::Hanging hanging;
  wall_bench::pin_cards(hanging, {0, 1, 3});
  const Wall wall = wall_of(small(1), hanging, simulator::wall_shot(Seed{4}, {1000, 750}), Seed{5});
  const auto read = read_wall(wall.picture, wall.quilt, wall.swatches);
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->cards.front(), 3);
  const double inch = (wall.corners[1][0] - wall.corners[0][0]) / (5 * 6.75);
  EXPECT_LT(farthest_apart(read->corners.front(), wall.corners), 0.7 * inch);
  EXPECT_EQ(tally_of(wall, *read).right, 20);
}

TEST_F(ReadWall, SeesThroughTheLightAndTheSlantOfATelephonesPhotograph) {
  Tally all;
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    const Wall wall = wall_by_lot(small(static_cast<int>(seed)), Seed{seed});
    const auto read = read_wall(wall.picture, wall.quilt, wall.swatches, given(wall));
    ASSERT_TRUE(read.ok());
    all += tally_of(wall, *read);
  }
  EXPECT_GE(all.right, all.cells - 1);
  EXPECT_GE(all.sure_right, all.sure - 1);
}

TEST_F(ReadWall, WhatItCallsSureIsRightAndNoBlockHangsTwice) {
  Wanted wanted = small(0);
  wanted.prints = 10;
  wanted.pixels = {1200, 900};
  for (std::uint64_t seed : {4U, 5U}) {
    const Wall wall = seed % 2 == 0 ? wall_of(wanted, {}, {}, Seed{seed}) : wall_by_lot(wanted, Seed{seed});
    const auto read = read_wall(wall.picture, wall.quilt, wall.swatches, given(wall));
    ASSERT_TRUE(read.ok());
    EXPECT_EQ(read->cells.size(), 20U);
    const Tally tally = tally_of(wall, *read);
    EXPECT_EQ(tally.sure, tally.sure_right) << "seed " << seed;
    std::set<int> hung;
    for (int block : read->layout.block) {
      EXPECT_TRUE(block == kNone || hung.insert(block).second) << "block " << block;
    }
  }
}

/// Fills a part of a cell of a tidy wall of 4 x 5, in shares of the cell.
void cover(Wall& wall, int row, int column, double from, double to, colour::Srgb colour) {
  const double width = (wall.corners[1][0] - wall.corners[0][0]) / 5;
  const double height = (wall.corners[3][1] - wall.corners[0][1]) / 4;
  for (int y = 0; y < static_cast<int>(height); ++y) {
    for (int x = static_cast<int>(from * width); x < static_cast<int>(to * width); ++x) {
      wall.picture.set(static_cast<int>(wall.corners[0][0] + column * width) + x,
                       static_cast<int>(wall.corners[0][1] + row * height) + y, colour);
    }
  }
}

TEST_F(ReadWall, TellsAnEmptyPlaceFromABlockThatIsNotOurs) {
  Wanted wanted = small(2);
  wanted.swapped = wanted.turned = 0;
  Wall wall = tidy(wanted, Seed{6});
  const colour::Srgb bare = wall.picture.at(3, 3);
  cover(wall, 1, 1, 0, 1, bare);
  cover(wall, 2, 3, 0, 0.4, {170, 20, 190});
  cover(wall, 2, 3, 0.4, 1, {60, 230, 40});
  const auto read = read_wall(wall.picture, wall.quilt, wall.swatches, given(wall));
  ASSERT_TRUE(read.ok());
  ASSERT_EQ(read->differs.size(), 2U);
  EXPECT_EQ(read->differs[0].kind, Difference::Kind::missing);
  EXPECT_EQ(read->differs[0].cell, 6);
  EXPECT_EQ(read->differs[1].kind, Difference::Kind::foreign);
  EXPECT_EQ(read->differs[1].cell, 13);
  EXPECT_EQ(read->differs[1].planned, wall.quilt.layout.block[13]);
  EXPECT_EQ(read->layout.block[13], kNone);
}

TEST_F(ReadWall, WhatHangsBesideTheBlocksIsNoneOfThem) {
  Wall wall = tidy(small(3), Seed{7});
  const double inch = (wall.corners[1][0] - wall.corners[0][0]) / 45;
  cv::Mat photograph(wall.picture.rows, wall.picture.columns, CV_8UC3, wall.picture.rgb.data());
  // A rail just above them.
  const double top = wall.corners[0][1] - 2.2 * inch;
  cv::rectangle(photograph, cv::Rect2d(wall.corners[0][0] + 4 * inch, top, 20 * inch, 1.5 * inch),
                cv::Scalar(90, 120, 80), cv::FILLED);
  const auto read = read_wall(wall.picture, wall.quilt, wall.swatches);
  ASSERT_TRUE(read.ok());
  const Tally tally = tally_of(wall, *read);
  EXPECT_EQ(tally.right, tally.cells);
  EXPECT_GE(tally.sure, tally.cells - 1);
  EXPECT_EQ(tally.sure_right, tally.sure);
}

/// A border about the blocks of a sewn top, `inches` wide on the photograph; blocks are six inches.
void paint_border(Wall& wall, double inches) {
  const cv::Size size(wall.picture.columns, wall.picture.rows);
  cv::Mat photograph(size, CV_8UC3, wall.picture.rgb.data());
  cv::Mat ring(size, CV_8U, cv::Scalar(0));
  const auto fill = [&](double beyond, double value) {
    std::vector<cv::Point> outline;
    for (std::size_t k = 0; k < 4; ++k) {
      const double inch = (wall.corners[1][0] - wall.corners[0][0]) / 30;
      const double across = k == 1 || k == 2 ? 1 : -1, down = k >= 2 ? 1 : -1;
      outline.emplace_back(cvRound(wall.corners[k][0] + across * beyond * inch),
                           cvRound(wall.corners[k][1] + down * beyond * inch));
    }
    cv::fillConvexPoly(ring, outline, cv::Scalar(value));
  };
  fill(inches, 255);
  fill(0, 0);
  photograph.setTo(cv::Scalar(24, 32, 62), ring);
}

TEST_F(ReadWall, OfASewnTopTheSeamAllowanceMayShowRoundItsBorders) {
  simulator::Hanging hanging;
  hanging.state = simulator::Hanging::State::sewn_top;
  simulator::Shot shot;
  shot.camera.pixels = {1400, 1050};
  for (const double raw : {0.0, 0.25}) {
    Wall wall = wall_of(small(1), hanging, shot, Seed{4});
    paint_border(wall, 1.0 + raw);
    wall.quilt.setting.borders = {{Length::inches(1), 0}};
    ReadOptions options;
    options.laid = Laid::top;
    const auto read = read_wall(wall.picture, wall.quilt, wall.swatches, options);
    ASSERT_TRUE(read.ok());
    const double inch = (wall.corners[1][0] - wall.corners[0][0]) / 30;
    EXPECT_LT(farthest_apart(read->corners.front(), wall.corners), 0.15 * inch) << raw << " in beyond the border";
    EXPECT_EQ(tally_of(wall, *read).right, 20);
  }
}

TEST_F(ReadWall, SaysTheSameOfTheSamePhotograph) {
  const Wall wall = wall_by_lot(small(1), Seed{8});
  const auto once = read_wall(wall.picture, wall.quilt, wall.swatches, given(wall));
  const auto again = read_wall(wall.picture, wall.quilt, wall.swatches, given(wall));
  EXPECT_EQ(once->layout, again->layout);
}

TEST_F(ReadWall, AsksForCornersWhereNothingStandsOut) {
  const wall_bench::Made made = wall_bench::quilt_of(small(0), Seed{9});
  const photo::Picture bare(800, 600, {230, 228, 224});
  const auto read = read_wall(bare, made.quilt, made.swatches);
  ASSERT_FALSE(read.ok());
  EXPECT_NE(read.problems().front().remedy.find("or give their four outer corners"), std::string::npos);
}

TEST(LearnWall, TellsThePrintsOfBlocksThatNobodyWroteDown) {
  const Wall wall = tidy(small(2), Seed{10});
  const auto learnt = learn_wall(wall.picture, wall.quilt, 0, wall.swatches, given(wall));
  ASSERT_TRUE(learnt.ok());
  const Tally tally = tally_of(wall, *learnt);
  EXPECT_GE(tally.right, tally.cells - 1);
}

}  // namespace
}  // namespace farflung::wall
