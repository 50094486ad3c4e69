#include "photo/stripes_beyond.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

const cv::Scalar kTable(200, 195, 185), kNavy(30, 32, 70), kBrick(150, 70, 60);

/// A table from above, and what on it is unlike its own colour.
struct Table {
  cv::Mat rgb = cv::Mat(240, 400, CV_8UC3, kTable), cloth = cv::Mat::zeros(240, 400, CV_8U);

  void lay(int left, int right, const cv::Scalar& colour, int top = 40, int bottom = 200) {
    const cv::Rect place(cv::Point(left, top), cv::Point(right, bottom));
    rgb(place).setTo(colour);
    cloth(place).setTo(255);
  }
};

/// Pixels `left` to `right` - 1 across, 40 to 199 down.
Quad between(double left, double right) { return {{{left, 40}, {right - 1, 40}, {right - 1, 199}, {left, 199}}}; }

/// Navy and brick, then a stripe of the table's colour, then navy again.
Table striped() {
  Table table;
  table.lay(100, 160, kNavy), table.lay(160, 180, kBrick), table.lay(190, 210, kNavy);
  return table;
}

TEST(StripesBeyond, AStripeOfTheTablesColourBelongToTheCloth) {
  const Table table = striped();
  const auto wide = widened_over_stripes(between(100, 180), table.cloth, table.rgb);
  ASSERT_TRUE(wide);
  EXPECT_NEAR((*wide)[1].x, 210, 2);
  EXPECT_NEAR((*wide)[0].x, 100, 2);
}

TEST(StripesBeyond, AreFoundAcrossAndDownAndTheCornersKeepTheirOrder) {
  const Table table = striped();
  cv::Mat cloth, rgb;
  cv::transpose(table.cloth, cloth);
  cv::transpose(table.rgb, rgb);
  const auto wide = widened_over_stripes({{{40, 100}, {199, 100}, {199, 179}, {40, 179}}}, cloth, rgb);
  ASSERT_TRUE(wide);
  EXPECT_NEAR((*wide)[0].y, 100, 2);
  EXPECT_NEAR((*wide)[2].y, 210, 2);
}

TEST(StripesBeyond, AreNoneWhereANeighbourShowsOtherColours) {
  Table table;
  table.lay(100, 180, kNavy), table.lay(190, 270, kBrick);
  EXPECT_FALSE(widened_over_stripes(between(100, 180), table.cloth, table.rgb));
}

TEST(StripesBeyond, AreNoneWhereTheyReachFartherThanTheCloth) {
  Table table;
  table.lay(100, 180, kNavy), table.lay(190, 210, kNavy, 10, 230);
  EXPECT_FALSE(widened_over_stripes(between(100, 180), table.cloth, table.rgb));
}

TEST(StripesBeyond, AreNoneBehindABroadGap) {
  Table table;
  table.lay(100, 180, kNavy), table.lay(220, 240, kNavy);
  EXPECT_FALSE(widened_over_stripes(between(100, 180), table.cloth, table.rgb));
}

TEST(StripesBeyond, ClothThatOnlyGoesOnIsLeftAsItIs) {
  Table table;
  table.lay(100, 240, kNavy);
  EXPECT_FALSE(widened_over_stripes(between(100, 180), table.cloth, table.rgb));
}

/// Two pieces a gap apart on a plain table, and whether the gap is told for cloth where it is `gap`.
bool is_dyed(const cv::Scalar& gap) {
  Table table;
  table.rgb(cv::Rect(100, 40, 100, 160)).setTo(gap);
  table.lay(100, 140, kNavy), table.lay(160, 200, kNavy);
  Surface surface;
  surface.noise = 0.7;
  const auto bare = LabTable::get().lab({200, 195, 185});
  surface.expected = cv::Mat(60, 100, CV_32FC3, cv::Scalar(bare[0], bare[1], bare[2]));
  return gaps_are_dyed(between(100, 200), table.cloth, table.rgb, surface);
}

TEST(StripesBeyond, AGapOfAnotherHueThanTheTableIsClothToo) {
  EXPECT_FALSE(is_dyed(kTable));
  EXPECT_FALSE(is_dyed(kTable * 0.8)) << "in the shade of the cloth";
  EXPECT_TRUE(is_dyed({206, 190, 190}));
  EXPECT_TRUE(is_dyed({165, 152, 152})) << "a dyed stripe in the shade";
}

}  // namespace
}  // namespace farflung::photo
