#include "photo/stripe_ends.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

constexpr int kSide = 200;
constexpr int kAt = 30;

/// Stripes both ways that leave the corners of a square bare.
cv::Mat checked(int wide) {
  cv::Mat region = cv::Mat::zeros(kSide + 2 * kAt, kSide + 2 * kAt, CV_8U);
  for (int at = wide; at + wide < kSide; at += 2 * wide) {
    region(cv::Rect(kAt + at, kAt, wide, kSide)).setTo(255);
    region(cv::Rect(kAt, kAt + at, kSide, wide)).setTo(255);
  }
  return region;
}

TEST(StripeEnds, TellTheSidesOfAClothWhoseCornersAreMissing) {
  for (const int wide : {20, 28, 40}) {
    const auto quad = quad_by_stripe_ends(checked(wide));
    ASSERT_TRUE(quad) << wide;
    const cv::Point2d first(kAt, kAt), last(kAt + kSide - 1, kAt + kSide - 1);
    EXPECT_LT(cv::norm((*quad)[0] - first), 2) << wide;
    EXPECT_LT(cv::norm((*quad)[2] - last), 2) << wide;
  }
}

TEST(StripeEnds, AreNoneOfAMotifNorOfAWholeSquare) {
  cv::Mat region = cv::Mat::zeros(260, 260, CV_8U);
  const std::vector<cv::Point> octagon = {{90, 30},   {170, 30}, {230, 90}, {230, 170},
                                          {170, 230}, {90, 230}, {30, 170}, {30, 90}};
  cv::fillConvexPoly(region, octagon, 255);
  EXPECT_FALSE(quad_by_stripe_ends(region));
  cv::rectangle(region, {kAt, kAt, kSide, kSide}, 255, cv::FILLED);
  EXPECT_FALSE(quad_by_stripe_ends(region));
}

}  // namespace
}  // namespace farflung::photo
