#include "wall/align.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "quilt/quilt.hpp"
#include "wall_bench/trial.hpp"

namespace farflung::wall {
namespace {

wall_bench::Wall hung(int pattern, Seed seed) {
  wall_bench::Wanted wanted;
  wanted.rows = 4;
  wanted.columns = 5;
  wanted.prints = 12;
  wanted.pattern = pattern;
  wanted.pixels = {1000, 750};
  simulator::Shot shot;
  shot.camera.pixels = wanted.pixels;
  return wall_of(wanted, {}, shot, seed);
}

/// How far the corner that is farthest off lies from where it is, as a share of a block.
double farthest(const photo::Corners& found, const photo::Corners& truth) {
  const double block = std::hypot(truth[1][0] - truth[0][0], truth[1][1] - truth[0][1]) / 5;
  double most = 0;
  for (std::size_t k = 0; k < 4; ++k) {
    most = std::max(most, std::hypot(found[k][0] - truth[k][0], found[k][1] - truth[k][1]));
  }
  return most / block;
}

TEST(Align, LaysTheCellsWhereTheirSeamsAreSeen) {
  for (const int pattern : {0, 1, 2, 3}) {
    const wall_bench::Wall wall = hung(pattern, Seed{4});
    Framed framed{grid_of(wall.quilt, quilt::plan_of(wall.quilt), {}, 0.1), wall.corners, 0};
    const double right = aligned(wall.picture, wall.quilt, framed).meets;
    const double block = (wall.corners[1][0] - wall.corners[0][0]) / 5;
    // As with something above the blocks, on the right, that was taken for a part of them.
    framed.corners[0][1] -= 0.05 * block;
    framed.corners[1][0] += 0.1 * block;
    framed.corners[1][1] -= 0.2 * block;
    framed.corners[2][0] += 0.05 * block;
    const Aligned found = aligned(wall.picture, wall.quilt, framed);
    EXPECT_LT(farthest(found.framed.corners, wall.corners), 0.08) << pattern;
    EXPECT_GT(found.meets, 0.9 * right) << pattern;
  }
}

TEST(Align, WhatMeetsNothingStaysWhereItIs) {
  const wall_bench::Wall wall = hung(1, Seed{4});
  const photo::Picture bare(1000, 750, {240, 238, 232});
  const Framed framed{grid_of(wall.quilt, quilt::plan_of(wall.quilt), {}, 0.1), wall.corners, 0};
  const Aligned found = aligned(bare, wall.quilt, framed);
  EXPECT_EQ(found.framed.corners, wall.corners);
  const Framed cells = each_by_itself(bare, wall.quilt, found.framed);
  for (std::size_t c = 0; c < framed.grid.centres.size(); ++c) {
    EXPECT_EQ(cells.grid.centres[c], framed.grid.centres[c]);
  }
}

}  // namespace
}  // namespace farflung::wall
