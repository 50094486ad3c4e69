#include "draw/shapes.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace farflung::draw {
namespace {

const Outline kTriangle = {{0, 0}, {60, 0}, {0, 60}};

TEST(Shapes, HatchingStaysWithinItsOutlineAndFillsItEvenly) {
  for (const double degrees : {0.0, 45.0, -45.0, 90.0, 17.0}) {
    double drawn = 0;
    for (const Segment& segment : hatched(kTriangle, 2, degrees)) {
      const Vec along = segment.to - segment.from;
      drawn += length(along);
      EXPECT_TRUE(holds(kTriangle, segment.from + 0.001 * along) && holds(kTriangle, segment.to - 0.001 * along));
    }
    EXPECT_NEAR(2 * drawn, area(kTriangle), 0.03 * area(kTriangle)) << degrees;
  }
}

TEST(Shapes, ASpotLiesWhollyWithinItsPatch) {
  const Spot spot = spot_within(kTriangle, 20, 16);
  ASSERT_TRUE(spot.fits);
  for (const Vec corner : outline_of({spot.centre.x - 10, spot.centre.y - 8, 20, 16})) {
    EXPECT_LE(corner.x + corner.y, 60);
    EXPECT_GE(std::min(corner.x, corner.y), 0);
  }
}

TEST(Shapes, WhatDoesNotFitIsNotForcedIn) { EXPECT_FALSE(spot_within(kTriangle, 31, 31).fits); }

TEST(Shapes, ASpotOfALongStripLiesAtItsMiddle) {
  const Spot spot = spot_within(outline_of({10, 20, 100, 20}), 12, 12);
  ASSERT_TRUE(spot.fits);
  EXPECT_NEAR(spot.centre.x, 60, 0.01);
  EXPECT_NEAR(spot.centre.y, 30, 0.01);
}

TEST(Shapes, FittedKeepsProportionAndRoom) {
  const Box room = {10, 10, 200, 100};
  const Box box = fitted(3, 4, room);
  EXPECT_TRUE(room.holds(box));
  EXPECT_NEAR(box.width / box.height, 0.75, 1e-12);
  EXPECT_NEAR(box.centre().x, room.centre().x, 1e-9);
}

}  // namespace
}  // namespace farflung::draw
