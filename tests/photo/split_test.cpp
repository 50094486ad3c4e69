#include "photo/split.hpp"

#include <utility>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

const cv::Scalar kTable(60, 2, 2), kBlack(22, 1, 4), kPink(84, 16, 4), kPurple(45, 28, -14);

/// Stripes from left to right, `widths` pixels wide each, 300 long, blurred; as many parts as they are taken apart to
/// on a table that is seen to 0.7 dE.
std::size_t parts_of(const std::vector<std::pair<int, cv::Scalar>>& stripes) {
  int width = 0;
  for (const auto& stripe : stripes) width += stripe.first;
  cv::Mat lab(300, width, CV_32FC3);
  int left = 0;
  for (const auto& [wide, colour] : stripes) {
    lab.colRange(left, left + wide).setTo(colour);
    left += wide;
  }
  cv::GaussianBlur(lab, lab, {}, 1.2);
  cv::Mat unlike(lab.size(), CV_32F);
  const cv::Vec3f table(60, 2, 2);
  for (int row = 0; row < lab.rows; ++row) {
    for (int column = 0; column < lab.cols; ++column)
      unlike.at<float>(row, column) = static_cast<float>(cv::norm(lab.at<cv::Vec3f>(row, column) - table) / 0.7);
  }
  return split_at_gaps(cv::Mat(lab.size(), CV_8U, cv::Scalar(255)), unlike, lab, 3000).size();
}

TEST(Split, TwoClothsComeApartAtANarrowGap) {
  EXPECT_EQ(parts_of({{150, kBlack}, {4, kTable}, {150, kPink}}), 2U);
  EXPECT_EQ(parts_of({{150, kPurple}, {4, kTable}, {150, kPink}, {4, kTable}, {150, kBlack}}), 3U);
}

TEST(Split, AStripedClothStaysWholeWhereBlurMixesTwoOfItsStripesToTheTablesColour) {
  EXPECT_EQ(parts_of({{40, kPink}, {60, kBlack}, {20, kPink}, {60, kBlack}, {100, kPink}, {20, kPurple}, {40, kPink}}),
            1U);
}

TEST(Split, AStripedClothComesApartFromItsNeighbourAtAGapThatIsClearerThanItsStripes) {
  EXPECT_EQ(parts_of({{60, kPink}, {60, kBlack}, {60, kPink}, {6, kTable}, {180, kPurple}}), 2U);
}

}  // namespace
}  // namespace farflung::photo
