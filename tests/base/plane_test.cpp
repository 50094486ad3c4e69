#include "base/plane.hpp"

#include <gtest/gtest.h>

namespace farflung {
namespace {

Length in(double inches) { return Length::inches(inches); }
Polygon box(double x, double y, double w, double h) { return rectangle(in(x), in(y), in(w), in(h)); }

TEST(Plane, FourQuarterTurnsBringAPointBack) {
  const Point point{in(1), in(2)};
  Point moved = point;
  for (int i = 0; i < 4; ++i) moved = turned(moved, in(9), in(9), Turn::quarters(1));
  EXPECT_EQ(moved, point);
}

TEST(Plane, AQuarterTurnClockwiseTakesTheTopLeftCornerToTheTopRight) {
  EXPECT_EQ(turned(Point{}, in(9), in(9), Turn::quarters(1)), (Point{in(9), in(0)}));
  EXPECT_EQ(turned(Point{}, in(9), in(9), Turn::quarters(3)), (Point{in(0), in(9)}));
}

TEST(Plane, TurningKeepsHandedness) {
  const Polygon triangle = {{in(0), in(0)}, {in(3), in(0)}, {in(0), in(1)}};
  for (int q = 0; q < 4; ++q) {
    EXPECT_DOUBLE_EQ(signed_area(turned(triangle, in(9), in(9), Turn::quarters(q))), 1.5) << q;
  }
}

TEST(Plane, NeighboursShareTheSeamThatBothHave) {
  const Meeting met = meeting(box(0, 0, 2, 3), box(2, 1, 4, 5));
  EXPECT_EQ(met.seam, in(2));
  EXPECT_FALSE(met.point);
}

TEST(Plane, DiagonalNeighboursShareAPoint) {
  const Meeting met = meeting(box(0, 0, 2, 2), box(2, 2, 2, 2));
  EXPECT_EQ(met.seam, Length());
  EXPECT_TRUE(met.point);
}

TEST(Plane, ATipOnTheMiddleOfAnEdgeIsAPoint) {
  const Polygon triangle = {{in(0), in(4)}, {in(2), in(2)}, {in(4), in(4)}};
  EXPECT_TRUE(meeting(box(0, 0, 4, 2), triangle).point);
  EXPECT_TRUE(meeting(triangle, box(0, 0, 4, 2)).point);
}

TEST(Plane, PiecesApartDoNotMeet) {
  const Meeting met = meeting(box(0, 0, 2, 2), box(2.01, 0, 2, 2));
  EXPECT_EQ(met.seam, Length());
  EXPECT_FALSE(met.point);
}

TEST(Plane, SeveralStretchesOfOneSeamAreAdded) {
  const Polygon comb = {{in(0), in(0)}, {in(6), in(0)}, {in(6), in(2)}, {in(4), in(2)},
                        {in(4), in(1)}, {in(2), in(1)}, {in(2), in(2)}, {in(0), in(2)}};
  EXPECT_EQ(meeting(comb, box(0, 2, 6, 2)).seam, in(4));
}

}  // namespace
}  // namespace farflung
