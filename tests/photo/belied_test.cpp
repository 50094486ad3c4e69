#include "photo/belied.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "colour/srgb.hpp"

namespace farflung::photo {
namespace {

const cv::Rect kCloth(40, 40, 120, 80);

/// A dark cloth on a pale table, its right hand neighbourhood in a shade.
Lit cloth_on_table() {
  constexpr int kTable = 205, kShaded = 175;
  cv::Mat rgb(160, 200, CV_8UC3, cv::Scalar::all(kTable));
  rgb(cv::Rect(150, 0, 50, 160)).setTo(cv::Scalar::all(kShaded));
  rgb(kCloth).setTo(cv::Scalar(90, 60, 70));
  return {rgb, cv::Mat(4, 4, CV_32FC3, cv::Scalar::all(colour::decoded(kTable / 255.0)))};
}

/// The cloth's outline, its right side so many pixels farther out.
Quad wider(double by) {
  const double left = kCloth.x - 0.5, top = kCloth.y - 0.5, right = left + kCloth.width + by,
               below = top + kCloth.height;
  return {cv::Point2d(left, top), {right, top}, {right, below}, {left, below}};
}

TEST(Belied, AreSidesOutOnTheSurfaceAndSidesThatLeaveClothOut) {
  const Lit lit = cloth_on_table();
  EXPECT_NEAR(belied(wider(4), wider(0), 1, lit), 4, 0.3) << "surface within, though in a shade";
  EXPECT_NEAR(belied(wider(-4), wider(0), 1, lit), 4, 0.3) << "cloth without";
  EXPECT_NEAR(belied(wider(0), wider(-4), 1, lit), 0, 0.3);
  EXPECT_NEAR(belied(wider(0), wider(4), 1, lit), 0, 0.3);
  EXPECT_DOUBLE_EQ(belied(wider(4), wider(0), 3, lit), 0) << "the other side lies where it was found";
}

}  // namespace
}  // namespace farflung::photo
