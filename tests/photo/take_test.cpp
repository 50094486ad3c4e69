#include "photo/take.hpp"

#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "base/rng.hpp"
#include "photo/encode.hpp"
#include "photo/mat.hpp"
#include "photo/scratch.hpp"
#include "simulator/demo.hpp"
#include "simulator/photographer.hpp"

namespace farflung::photo {
namespace {

using ::testing::HasSubstr;

/// As a telephone held over a table sees it, a little from the side.
simulator::Shot plain_shot(double slant) {
  simulator::Shot shot;
  shot.camera.pixels = {1400, 1050};
  shot.camera.slant = slant;
  shot.camera.roll = 2;
  shot.light.fall_off = 0.25;
  shot.light.kelvin = 4200;
  shot.develop.balance = 0.8;
  shot.develop.blur = 0.7;
  shot.develop.noise = 0.006;
  shot.develop.tone = 0.5;
  return shot;
}

double mean_side(const std::array<cv::Point2d, 4>& corners) {
  double around = 0;
  for (int i = 0; i < 4; ++i) around += cv::norm(corners[i] - corners[(i + 1) % 4]);
  return around / 4;
}

/// The farthest corner, as a share of the mean side. The simulator's pixels have their centres at whole numbers.
double worst_corner(const Corners& found, const std::array<cv::Point2d, 4>& truth) {
  double worst = 0;
  for (int i = 0; i < 4; ++i) {
    worst = std::max(worst, std::hypot(found[i][0] - 0.5 - truth[i].x, found[i][1] - 0.5 - truth[i].y));
  }
  return worst / mean_side(truth);
}

Take taken(const simulator::Photograph& photograph) {
  const Scratch scratch;
  const std::string file = scratch.file("a.jpg");
  EXPECT_TRUE(save(picture_from(photograph.srgb), file).ok());
  Result<Take> take_of = take(file);
  EXPECT_TRUE(take_of.ok());
  return take_of ? *take_of : Take{};
}

std::vector<simulator::Fabric> some(int first, int count) {
  const auto all = simulator::demo_fabrics();
  return {all.begin() + first, all.begin() + first + count};
}

TEST(Take, FindsSixClothsInReadingOrderToOnePercentOfTheirSide) {
  for (const double slant : {0.0, 14.0, 28.0}) {
    const simulator::Scene scene = simulator::in_rows(some(0, 6), 3, 6, 7, 0.6, 2.5, Seed{7});
    const simulator::Photograph photograph = simulator::photographed(scene, plain_shot(slant), Seed{3});
    const Take take_of = taken(photograph);
    ASSERT_EQ(take_of.swatches.size(), 6U) << slant;
    for (std::size_t i = 0; i < 6; ++i) {
      EXPECT_LT(worst_corner(take_of.swatches[i].corners, photograph.cloths[i].corners), 0.01) << slant << ' ' << i;
      EXPECT_EQ(take_of.swatches[i].doubt, "") << slant << ' ' << i;
    }
  }
}

TEST(Take, FindsOnePinkedClothByItsTips) {
  simulator::Scene scene = simulator::in_rows(some(2, 1), 1, 9, 11, 0.5, 3, Seed{4});
  scene.cloths[0].edge = simulator::Placed::Edge::pinked;
  const simulator::Photograph photograph = simulator::photographed(scene, plain_shot(10), Seed{5});
  const Take take_of = taken(photograph);
  ASSERT_EQ(take_of.swatches.size(), 1U);
  EXPECT_LT(worst_corner(take_of.swatches[0].corners, photograph.cloths[0].corners), 0.01);
}

TEST(Take, FindsPinkedClothsByTheirTipsThroughABlurThatLeavesFewTeeth) {
  simulator::Scene scene = simulator::in_rows(some(0, 6), 3, 7, 7, 0.8, 2, Seed{4});
  for (simulator::Placed& cloth : scene.cloths) cloth.edge = simulator::Placed::Edge::pinked;
  simulator::Shot shot = plain_shot(10);
  shot.develop.blur = 1.4;
  const simulator::Photograph photograph = simulator::photographed(scene, shot, Seed{5});
  const Take take_of = taken(photograph);
  ASSERT_EQ(take_of.swatches.size(), 6U);
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_LT(worst_corner(take_of.swatches[i].corners, photograph.cloths[i].corners), 0.006) << i;
  }
}

TEST(Take, AClothThatFillsTheFrameIsTakenWhole) {
  simulator::Scene scene = simulator::in_rows(some(19, 1), 1, 9, 7, 0.5, 1, Seed{4});
  simulator::Shot shot = plain_shot(3);
  shot.camera.margin = -0.15;
  shot.camera.roll = 0;
  const Take take_of = taken(simulator::photographed(scene, shot, Seed{5}));
  ASSERT_EQ(take_of.swatches.size(), 1U);
  EXPECT_EQ(take_of.swatches[0].corners, whole(1400, 1050));
}

TEST(Take, AnEmptyTableIsNothingAndSaysWhatToDo) {
  const Scratch scratch;
  const std::string file = scratch.file("nothing.png");
  ASSERT_TRUE(save(Picture(800, 600, {214, 208, 200}), file).ok());
  const Result<Take> take_of = take(file);
  ASSERT_FALSE(take_of.ok());
  EXPECT_THAT(take_of.problems()[0].at, HasSubstr("nothing.png"));
  EXPECT_THAT(take_of.problems()[0].remedy, HasSubstr("plain surface"));
}

TEST(Take, PlainClothThatFillsTheFrameIsToldByAColourThatTablesDoNotHave) {
  const Scratch scratch;
  const auto one_colour = [&](colour::Srgb rgb) {
    const std::string file = scratch.file("plain.jpg");
    EXPECT_TRUE(save(Picture(800, 600, rgb), file).ok());
    return take(file);
  };
  for (const colour::Srgb cloth : std::vector<colour::Srgb>{
           {217, 45, 28}, {20, 70, 180}, {150, 57, 62}, {8, 25, 52}, {120, 150, 110}, {240, 190, 200}}) {
    const Result<Take> take_of = one_colour(cloth);
    ASSERT_TRUE(take_of.ok()) << int{cloth.r};
    ASSERT_EQ(take_of->swatches.size(), 1U);
    EXPECT_EQ(take_of->swatches[0].corners, whole(800, 600));
    EXPECT_THAT(take_of->swatches[0].doubt, HasSubstr("one plain colour"));
  }
  // White, grey, black, under a lamp; of wood.
  for (const colour::Srgb table :
       std::vector<colour::Srgb>{{240, 240, 238}, {120, 122, 125}, {20, 20, 22}, {255, 214, 170}, {160, 110, 60}}) {
    const Result<Take> take_of = one_colour(table);
    ASSERT_FALSE(take_of.ok()) << int{table.r};
    EXPECT_THAT(take_of.problems()[0].cause, HasSubstr("empty table"));
    EXPECT_THAT(take_of.problems()[0].remedy, HasSubstr("--whole"));
  }
}

TEST(Take, CornersToldByHandAreKept) {
  const Scratch scratch;
  const std::string file = scratch.file("a.png");
  ASSERT_TRUE(save(Picture(800, 600, {214, 208, 200}), file).ok());
  TakeOptions options;
  options.corners = {{{{100, 90}, {500, 110}, {480, 400}, {90, 410}}}};
  const Result<Take> take_of = take(file, options);
  ASSERT_TRUE(take_of.ok());
  ASSERT_EQ(take_of->swatches.size(), 1U);
  EXPECT_EQ(take_of->swatches[0].corners, options.corners[0]);
  EXPECT_EQ(take_of->swatches[0].picture.at(20, 20), (colour::Srgb{214, 208, 200}));
}

TEST(Take, SameBytesInGiveSameSwatchesOut) {
  const simulator::Scene scene = simulator::in_rows(some(6, 4), 2, 6, 7, 0.5, 3, Seed{9});
  const simulator::Photograph photograph = simulator::photographed(scene, plain_shot(12), Seed{6});
  const Take first = taken(photograph), second = taken(photograph);
  ASSERT_EQ(first.swatches.size(), second.swatches.size());
  for (std::size_t i = 0; i < first.swatches.size(); ++i) {
    EXPECT_EQ(first.swatches[i].corners, second.swatches[i].corners);
    EXPECT_EQ(first.swatches[i].picture, second.swatches[i].picture);
  }
}

TEST(ReadingOrder, FollowsRowsThatRunUphill) {
  std::vector<Corners> pieces;
  const double c = std::cos(-0.17), s = std::sin(-0.17);
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 6; ++column) {
      Corners corners;
      int k = 0;
      for (const auto& [x, y] : {std::pair{0, 0}, {1, 0}, {1, 1}, {0, 1}}) {
        const double u = column * 110 + x * 100, v = row * 110 + y * 100;
        corners[k++] = {500 + c * u - s * v, 500 + s * u + c * v};
      }
      pieces.push_back(corners);
    }
  }
  std::vector<Corners> shuffled(pieces.rbegin(), pieces.rend());
  const std::vector<std::size_t> order = reading_order(shuffled);
  for (std::size_t i = 0; i < order.size(); ++i) EXPECT_EQ(shuffled[order[i]], pieces[i]);
}

TEST(Take, NoPictureHoweverOddStopsIt) {
  // Rectangles of chance colours on each other, down to a few pixels; and corners told outside the picture.
  const Scratch scratch;
  const std::string file = scratch.file("odd.png");
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    Rng rng(Seed{seed});
    const int columns = 1 + static_cast<int>(rng.below(140)), rows = 1 + static_cast<int>(rng.below(140));
    cv::Mat picture(rows, columns, CV_8UC3, cv::Scalar(rng.below(256), rng.below(256), rng.below(256)));
    for (std::uint32_t i = rng.below(9); i > 0; --i) {
      const cv::Point corner(static_cast<int>(rng.below(columns)), static_cast<int>(rng.below(rows)));
      const cv::Size size(1 + static_cast<int>(rng.below(columns)), 1 + static_cast<int>(rng.below(rows)));
      cv::rectangle(picture, cv::Rect(corner, size), cv::Scalar(rng.below(256), rng.below(256), rng.below(256)),
                    cv::FILLED);
    }
    ASSERT_TRUE(save(picture_from(picture), file).ok());
    const Result<Take> found = take(file);
    EXPECT_TRUE(found.ok() || !found.problems().empty());
    TakeOptions told;
    told.corners = {{{{-50, -50}, {500, -20}, {400, 900}, {-5, 3}}}};
    const Result<Take> by_hand = take(file, told);
    EXPECT_TRUE(by_hand.ok() || !by_hand.problems().empty());
  }
}

}  // namespace
}  // namespace farflung::photo
