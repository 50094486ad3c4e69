#include "photo/find.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::photo {
namespace {

cv::Mat table_with_squares() {
  cv::Mat rgb(600, 800, CV_8UC3, cv::Scalar(205, 200, 190));
  rgb(cv::Rect(90, 80, 200, 200)).setTo(cv::Scalar(60, 45, 90));
  rgb(cv::Rect(420, 90, 200, 200)).setTo(cv::Scalar(150, 60, 50));
  cv::Mat grain(rgb.size(), CV_8UC3);
  cv::RNG(7).fill(grain, cv::RNG::UNIFORM, 0, 6);
  return rgb + grain;
}

std::size_t cloths_in(const cv::Mat& rgb) { return find_cloths(picture_from(rgb)).cloths.size(); }

TEST(FindCloths, WhatTapersToAPointIsNoCutOfCloth) {
  cv::Mat rgb = table_with_squares();
  ASSERT_EQ(cloths_in(rgb), 2U);
  const std::vector<cv::Point> wedge = {{180, 340}, {188, 340}, {260, 540}, {120, 540}};
  cv::fillConvexPoly(rgb, wedge, cv::Scalar(40, 90, 60), cv::LINE_AA);
  EXPECT_EQ(cloths_in(rgb), 2U);
  const std::vector<cv::Point> slanted = {{430, 380}, {570, 380}, {610, 560}, {400, 560}};
  cv::fillConvexPoly(rgb, slanted, cv::Scalar(40, 90, 60), cv::LINE_AA);
  EXPECT_EQ(cloths_in(rgb), 3U);
}

}  // namespace
}  // namespace farflung::photo
