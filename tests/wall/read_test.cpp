#include "wall/read.hpp"

#include <set>

#include <gtest/gtest.h>

#include "wall_bench/trial.hpp"

namespace farflung::wall {
namespace {

/// A small wall that is not quite as planned; every other one hung and photographed by lot.
wall_bench::Wall small_wall(std::uint64_t seed) {
  wall_bench::Wanted wanted;
  wanted.rows = 4;
  wanted.columns = 5;
  wanted.prints = 10;
  wanted.pixels = {1200, 900};
  return seed % 2 == 0 ? wall_bench::wall_of(wanted, {}, {}, Seed{seed}) : wall_bench::wall_by_lot(wanted, Seed{seed});
}

TEST(ReadWall, WhatItCallsSureIsRightAndNoBlockHangsTwice) {
  for (std::uint64_t seed : {4U, 5U}) {
    const wall_bench::Wall wall = small_wall(seed);
    ReadOptions options;
    options.corners = wall.corners;
    const Result<WallRead> read = read_wall(wall.picture, wall.quilt, wall.swatches, options);
    ASSERT_TRUE(read.ok());
    EXPECT_EQ(read->cells.size(), 20U);
    const wall_bench::Tally tally = tally_of(wall, *read);
    EXPECT_EQ(tally.sure, tally.sure_right) << "seed " << seed;
    std::set<int> hung;
    for (int block : read->layout.block) {
      EXPECT_TRUE(block == kNone || hung.insert(block).second) << "block " << block;
    }
  }
}

}  // namespace
}  // namespace farflung::wall
