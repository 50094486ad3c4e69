#include "photo/plane.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace farflung::photo {
namespace {

/// Pixels from inches on a table that is seen at a slant and turned.
const cv::Matx33d kPhotoFromTable(42, -9, 220, 7, 38, 160, 0.004, 0.011, 1);
const cv::Size kPhoto(1000, 800);

/// A cloth of 5 by 4 inches with its middle there, turned by so many radians.
Quad seen_at_a_slant(double x, double y, double turn) {
  constexpr double kHalf[4][2] = {{-2.5, -2}, {2.5, -2}, {2.5, 2}, {-2.5, 2}};
  const double c = std::cos(turn), s = std::sin(turn);
  Quad quad;
  for (int i = 0; i < 4; ++i) {
    const auto [along, down] = kHalf[i];
    const cv::Vec3d p = kPhotoFromTable * cv::Vec3d(x + c * along - s * down, y + s * along + c * down, 1);
    quad[i] = {p[0] / p[2], p[1] / p[2]};
  }
  return quad;
}

/// How far from 90 degrees an angle is that is right on the table, far from where the cloths lie.
double squareness(const Plane& plane) {
  const Quad far = seen_at_a_slant(11, 10, 0);
  const cv::Point2d a = plane.on_table(far[1]) - plane.on_table(far[0]),
                    b = plane.on_table(far[3]) - plane.on_table(far[0]);
  return std::abs(std::atan2(a.cross(b), a.dot(b)) * 180 / CV_PI - 90);
}

TEST(TableSeen, IsToldByCloths) {
  const auto plane =
      fitted_plane({seen_at_a_slant(2, 2, 0), seen_at_a_slant(8, 2, 0.2), seen_at_a_slant(2, 7, -0.3)}, kPhoto);
  ASSERT_TRUE(plane);
  EXPECT_EQ(plane->agreeing, 3);
  EXPECT_LT(squareness(*plane), 0.1);
  EXPECT_NEAR(plane->width / plane->height, 5.0 / 4, 0.005);
}

TEST(TableSeen, IsToldByASheetWhereTwoClothsTellItBadly) {
  std::vector<Quad> quads = {seen_at_a_slant(2, 2, 0), seen_at_a_slant(8, 2, 0.05)};
  quads[0][0] += cv::Point2d(4, -5), quads[1][2] += cv::Point2d(-5, 4);
  const auto alone = fitted_plane(quads, kPhoto);
  // The sheet lies turned, and its inches are of another size than the plane's own.
  const double c = 2 * std::cos(0.7), s = 2 * std::sin(0.7);
  const cv::Matx33d known = cv::Matx33d(c, -s, 3, s, c, -5, 0, 0, 1) * kPhotoFromTable.inv();
  const auto by_sheet = fitted_plane(quads, kPhoto, 2, known);
  ASSERT_TRUE(alone && by_sheet);
  EXPECT_LT(squareness(*by_sheet), 0.3);
  EXPECT_GT(squareness(*alone), 3 * squareness(*by_sheet));
}

}  // namespace
}  // namespace farflung::photo
