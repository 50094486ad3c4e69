#include <cmath>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "simulator/demo.hpp"
#include "simulator/light.hpp"
#include "simulator/wall_photographer.hpp"

namespace farflung::simulator {
namespace {

constexpr int kPrints = 6;

Polygon patch(double left, double top, double width, double height) {
  return rectangle(Length::inches(left), Length::inches(top), Length::inches(width), Length::inches(height));
}

/// Blocks of two halves: slot A above, slot B below.
quilt::Quilt halves(int rows, int columns) {
  quilt::Quilt quilt;
  quilt.prints.resize(kPrints);
  block::Pattern pattern;
  pattern.width = pattern.height = Length::inches(8);
  pattern.turns = {Turn(), Turn::quarters(1), Turn::quarters(2), Turn::quarters(3)};
  pattern.slots = {{"A", block::kNone, false}, {"B", block::kNone, false}};
  pattern.patches = {{0, patch(0, 0, 8, 4)}, {1, patch(0, 4, 8, 4)}};
  quilt.patterns = {pattern};
  quilt.setting.rows = rows;
  quilt.setting.columns = columns;
  quilt.layout = setting::empty_arrangement(quilt.setting);
  for (int i = 0; i < rows * columns; ++i) {
    block::Block block;
    block.prints = {i % kPrints, (i + 2) % kPrints};
    quilt.blocks.push_back(block);
    quilt.layout.block[static_cast<std::size_t>(i)] = i;
    quilt.layout.turn[static_cast<std::size_t>(i)] = Turn::quarters(i % 4);
  }
  return quilt;
}

std::vector<Fabric> cloths() {
  const std::vector<Fabric> all = demo_fabrics();
  return {all[1], all[3], all[4], all[5], all[13], all[18]};
}

Shot plain_shot(double slant) {
  Shot shot;
  shot.camera.pixels = {640, 480};
  shot.camera.slant = slant;
  return shot;
}

// Mean light about a place of a cell, (0, 0) its top left, (1, 1) its bottom right.
colour::Lab about(const WallPhotograph& photograph, const CellSeen& cell, double x, double y) {
  const auto& c = cell.corners;
  const cv::Point2d p = (c[0] * (1 - x) + c[1] * x) * (1 - y) + (c[3] * (1 - x) + c[2] * x) * y;
  const double side = std::hypot(c[1].x - c[0].x, c[1].y - c[0].y);
  const int reach = cvRound(0.14 * side);
  const cv::Rect box(cvRound(p.x) - reach, cvRound(p.y) - reach, 2 * reach + 1, 2 * reach + 1);
  return lab_of(mean_light(linear_picture(photograph.srgb(box))) * (1 / 0.8));
}

double apart(const colour::Lab& a, const colour::Lab& b) { return std::hypot(a.L - b.L, a.a - b.a, a.b - b.b); }

TEST(Wall, EveryCellShowsTheBlockAndTurnThatTheTruthNames) {
  const quilt::Quilt quilt = halves(3, 4);
  std::vector<colour::Lab> labs;
  for (const Fabric& fabric : cloths()) labs.push_back(lab_of(mean_light(cloth(fabric, 20))));
  for (const auto state : {Hanging::State::sewn_top, Hanging::State::blocks, Hanging::State::patches}) {
    Hanging hanging;
    hanging.state = state;
    const WallPhotograph photograph = photographed(quilt, cloths(), hanging, plain_shot(15), Seed{3});
    EXPECT_EQ(photograph.layout, quilt.layout);
    ASSERT_EQ(photograph.cells.size(), 12u);
    for (const CellSeen& cell : photograph.cells) {
      const auto k = static_cast<std::size_t>(cell.cell);
      const block::Block& block = quilt.blocks[static_cast<std::size_t>(quilt.layout.block[k])];
      const int turn = quilt.layout.turn[k].quarters();
      // The middle of the half that was above before the block was turned.
      const double x = turn == 1 ? 0.75 : turn == 3 ? 0.25 : 0.5, y = turn == 0 ? 0.25 : turn == 2 ? 0.75 : 0.5;
      for (int slot = 0; slot < 2; ++slot) {
        const colour::Lab seen = about(photograph, cell, slot == 0 ? x : 1 - x, slot == 0 ? y : 1 - y);
        int nearest = 0;
        for (int p = 1; p < kPrints; ++p) {
          if (apart(seen, labs[static_cast<std::size_t>(p)]) < apart(seen, labs[static_cast<std::size_t>(nearest)]))
            nearest = p;
        }
        EXPECT_EQ(nearest, block.prints[static_cast<std::size_t>(slot)]) << "cell " << k << " slot " << slot;
      }
    }
  }
}

TEST(Wall, AnEmptyCellShowsTheWall) {
  quilt::Quilt quilt = halves(2, 2);
  quilt.layout.block[3] = block::kNone;
  Hanging hanging;
  hanging.wall = {Surface::Kind::plain, 0x808080, 0};
  const WallPhotograph photograph = photographed(quilt, cloths(), hanging, plain_shot(0), Seed{3});
  ASSERT_EQ(photograph.cells.size(), 4u);
  EXPECT_EQ(photograph.layout.block[3], block::kNone);
  EXPECT_LT(apart(about(photograph, photograph.cells[3], 0.5, 0.5), {53.6, 0, 0}), 2.5);
}

TEST(Wall, ABlockIsTheSameClothWhereverItHangs) {
  quilt::Quilt quilt = halves(1, 2);
  quilt.layout.turn = {Turn(), Turn()};
  Hanging hanging;
  hanging.askew = hanging.astray = hanging.pulled = 0;
  const WallPhotograph before = photographed(quilt, cloths(), hanging, plain_shot(0), Seed{3});
  std::swap(quilt.layout.block[0], quilt.layout.block[1]);
  const WallPhotograph after = photographed(quilt, cloths(), hanging, plain_shot(0), Seed{3});
  for (double x : {0.3, 0.5, 0.7}) {
    EXPECT_LT(apart(about(before, before.cells[0], x, 0.25), about(after, after.cells[1], x, 0.25)), 0.7);
  }
}

TEST(Wall, OnlyTheRowsAskedForAreOnTheWall) {
  Hanging hanging;
  hanging.from_row = 1;
  hanging.to_row = 2;
  const quilt::Quilt quilt = halves(3, 3);
  const WallPhotograph photograph = photographed(quilt, cloths(), hanging, plain_shot(0), Seed{3});
  ASSERT_EQ(photograph.cells.size(), 3u);
  EXPECT_EQ(photograph.cells[0].cell, 3);
  EXPECT_EQ(photograph.layout.block[0], block::kNone);
  EXPECT_EQ(photograph.layout.block[4], 4);
}

TEST(Wall, SameSeedSamePixels) {
  const quilt::Quilt quilt = halves(2, 2);
  const Hanging hanging = wall_hanging(Seed{5});
  const Shot shot = wall_shot(Seed{5}, {320, 240});
  const cv::Mat once = photographed(quilt, cloths(), hanging, shot, Seed{3}).srgb;
  EXPECT_EQ(cv::norm(once, photographed(quilt, cloths(), hanging, shot, Seed{3}).srgb, cv::NORM_INF), 0);
}

TEST(Wall, OnPointTheCornersRunFromTheTop) {
  quilt::Quilt quilt = halves(2, 2);
  quilt.setting.kind = setting::Setting::Kind::on_point;
  quilt.layout = setting::empty_arrangement(quilt.setting);
  quilt.layout.block[0] = 0;
  const WallPhotograph photograph = photographed(quilt, cloths(), {}, plain_shot(0), Seed{3});
  ASSERT_EQ(photograph.cells.size(), 5u);
  const auto& c = photograph.cells[0].corners;
  EXPECT_LT(c[0].y, c[1].y);
  EXPECT_LT(c[1].y, c[2].y);
  EXPECT_GT(c[1].x, c[0].x);
  EXPECT_LT(c[3].x, c[0].x);
}

}  // namespace
}  // namespace farflung::simulator
