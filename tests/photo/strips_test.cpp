#include "photo/strips.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

/// A strip of 20 by 160 pixels, the `index`th of a row.
Quad strip(int index) {
  const double left = 30 + 40 * index;
  return {{{left, 20}, {left + 20, 20}, {left + 20, 180}, {left, 180}}};
}

cv::Mat photographed(const std::vector<cv::Scalar>& colours) {
  cv::Mat rgb(200, 300, CV_8UC3, cv::Scalar(200, 195, 185));
  for (std::size_t i = 0; i < colours.size(); ++i) {
    const Quad quad = strip(static_cast<int>(i));
    cv::rectangle(rgb, cv::Point(quad[0]), cv::Point(quad[2]), colours[i], cv::FILLED);
  }
  return rgb;
}

const cv::Scalar kNavy(30, 32, 70), kBrick(150, 70, 60);

TEST(Strips, AreMuchLongerThanWide) {
  EXPECT_TRUE(is_strip(strip(0)));
  EXPECT_FALSE(is_strip({{{0, 0}, {80, 0}, {80, 160}, {0, 160}}}));
}

TEST(Strips, WhoseColoursComeAgainMayBeTheStripesOfOneCloth) {
  EXPECT_TRUE(may_be_stripes({strip(0), strip(1), strip(2)}, photographed({kNavy, kNavy, kNavy})));
  EXPECT_TRUE(may_be_stripes({strip(0), strip(1), strip(2), strip(3)}, photographed({kNavy, kBrick, kNavy, kBrick})));
}

TEST(Strips, OfWhichOneIsOfItsOwnColourWereCutForSewing) {
  EXPECT_FALSE(may_be_stripes({strip(0), strip(1), strip(2)}, photographed({kNavy, kBrick, kNavy})));
}

TEST(Strips, TwoAreTooFewToTell) { EXPECT_FALSE(may_be_stripes({strip(0), strip(1)}, photographed({kNavy, kNavy}))); }

}  // namespace
}  // namespace farflung::photo
