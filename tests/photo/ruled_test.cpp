#include "photo/ruled.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

/// What is unlike a table: lines so far apart, and a cloth.
cv::Mat seen(int across, int down, int width = 2) {
  cv::Mat unlike = cv::Mat::zeros(600, 800, CV_8U);
  for (int x = 25; across > 0 && x < unlike.cols; x += across) cv::line(unlike, {x, 0}, {x + 6, 599}, 255, width);
  for (int y = 25; down > 0 && y < unlike.rows; y += down) cv::line(unlike, {0, y}, {799, y + 9}, 255, width);
  unlike(cv::Rect(250, 200, 180, 140)).setTo(255);
  return unlike;
}

TEST(RuledLines, AreFoundToTheirLastPixelAndClothIsLeft) {
  const cv::Mat unlike = seen(50, 50), lines = ruled_lines(unlike);
  ASSERT_FALSE(lines.empty());
  const cv::Mat left = unlike & ~lines;
  EXPECT_EQ(cv::boundingRect(left), cv::Rect(250, 200, 180, 140));
}

TEST(RuledLines, MayBeBroadWhereTheyLieFarApart) {
  const cv::Mat unlike = seen(150, 150, 14), lines = ruled_lines(unlike);
  ASSERT_FALSE(lines.empty());
  EXPECT_EQ(cv::boundingRect(unlike & ~lines), cv::Rect(250, 200, 180, 140));
  EXPECT_TRUE(ruled_lines(seen(50, 50, 14)).empty());  // as the checks of a cloth that fills the frame
}

TEST(RuledLines, AreSoughtOnlyWhereTheyCrossTheRimOfThePicture) {
  EXPECT_TRUE(ruled_lines(seen(0, 0)).empty());
  EXPECT_TRUE(ruled_lines(seen(50, 0)).empty());  // as the edges of a striped cloth that fills the frame
  cv::Mat within = seen(50, 50);
  cv::rectangle(within, {0, 0, within.cols, within.rows}, 0, 60);
  EXPECT_TRUE(ruled_lines(within).empty());
}

}  // namespace
}  // namespace farflung::photo
