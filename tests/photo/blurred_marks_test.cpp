#include "photo/blurred_marks.hpp"

#include <algorithm>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "photo/reference_sheet.hpp"
#include "photo/sheet_marks.hpp"

namespace farflung::photo {
namespace {

constexpr int kLeft = 20, kTop = 30, kCellSide = 4;  // pixels

/// A mark on white paper, as blurred as a telephone's that moved.
cv::Mat blurred_mark(int id) {
  cv::Mat grey(80, 80, CV_8U, cv::Scalar(225));
  const SheetMark& mark = sheet_plan().marks[static_cast<std::size_t>(id)];
  for (int row = 0; row < kMarkCells; ++row) {
    for (int column = 0; column < kMarkCells; ++column) {
      if (!mark.black[row][column]) continue;
      grey(cv::Rect(kLeft + column * kCellSide, kTop + row * kCellSide, kCellSide, kCellSide)).setTo(45);
    }
  }
  cv::GaussianBlur(grey, grey, {}, 1.8);
  return grey;
}

/// Its outline, from whichever corner.
std::vector<cv::Point2f> outline_from(int corner) {
  constexpr float kSide = kMarkCells * kCellSide, x = kLeft - 0.5F, y = kTop - 0.5F;
  std::vector<cv::Point2f> quad = {{x, y}, {x + kSide, y}, {x + kSide, y + kSide}, {x, y + kSide}};
  std::rotate(quad.begin(), quad.begin() + corner, quad.end());
  return quad;
}

TEST(BlurredMarks, AreToldFromEachOtherAtAnyTurn) {
  for (const SheetMark& mark : sheet_plan().marks) {
    const cv::Mat grey = blurred_mark(mark.id);
    for (int corner = 0; corner < 4; ++corner) {
      const std::vector<MarkSeen> seen = blurred_marks(grey, {outline_from(corner)});
      ASSERT_EQ(seen.size(), 1U) << mark.id << " from corner " << corner;
      EXPECT_EQ(seen[0].id, mark.id);
      for (int i = 0; i < 4; ++i) EXPECT_EQ(seen[0].corners[i], outline_from(0)[i]) << mark.id << ' ' << corner;
    }
  }
}

TEST(BlurredMarks, AreNoMotifs) {
  cv::Mat checks(80, 80, CV_8U), dot(80, 80, CV_8U, cv::Scalar(225));
  for (int row = 0; row < checks.rows; ++row) {
    for (int column = 0; column < checks.cols; ++column)
      checks.at<std::uint8_t>(row, column) = (row / 6 + column / 6) % 2 == 0 ? 50 : 210;
  }
  cv::circle(dot, {kLeft + 12, kTop + 12}, 10, 60, cv::FILLED);
  const cv::Mat plain(80, 80, CV_8U, cv::Scalar(120));
  for (const cv::Mat& grey : {checks, dot, plain}) EXPECT_TRUE(blurred_marks(grey, {outline_from(0)}).empty());
}

}  // namespace
}  // namespace farflung::photo
