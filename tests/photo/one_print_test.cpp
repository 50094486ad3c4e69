#include "photo/one_print.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "photo/encode.hpp"
#include "photo/lab_table.hpp"
#include "photo/mat.hpp"
#include "photo/scratch.hpp"
#include "photo/take.hpp"

namespace farflung::photo {
namespace {

constexpr int kColumns = 900, kRows = 700;

/// Checks of two threads, `side` pixels each: light, dark and mixed.
cv::Mat gingham(int side, cv::Vec3b light, cv::Vec3b dark) {
  cv::Mat cloth(kRows, kColumns, CV_8UC3);
  for (int row = 0; row < kRows; ++row) {
    for (int column = 0; column < kColumns; ++column) {
      const double share = 0.5 * ((column / side + 1) % 2 + row / side % 2);
      for (int c = 0; c < 3; ++c)
        cloth.at<cv::Vec3b>(row, column)[c] = cv::saturate_cast<std::uint8_t>((1 - share) * light[c] + share * dark[c]);
    }
  }
  return cloth;
}

/// Squares in 3 rows of 4 on a pale table, each of its own of `colours`, which come again where there are fewer.
struct Laid {
  explicit Laid(const std::vector<cv::Scalar>& colours) : rgb(kRows, kColumns, CV_8UC3, cv::Scalar(225, 222, 215)) {
    for (int i = 0; i < 12; ++i) {
      const cv::Rect box(60 + i % 4 * 205, 40 + i / 4 * 215, 160, 160);
      cv::rectangle(rgb, box, colours[static_cast<std::size_t>(i) % colours.size()], cv::FILLED);
      const cv::Point2d from(box.tl()), to(box.br());
      pieces.push_back({from, {to.x, from.y}, to, {from.x, to.y}});
    }
  }
  cv::Mat rgb;
  std::vector<Quad> pieces;
};

/// How many cloths are found, or whether it is one that fills the frame.
std::size_t found_in(const cv::Mat& rgb) {
  const Scratch scratch;
  const std::string file = scratch.file("a.jpg");
  EXPECT_TRUE(save(picture_from(rgb), file).ok());
  const Result<Take> taken = take(file);
  return taken ? taken->swatches.size() : 0;
}

TEST(OnePrint, IsToldByPiecesOfFewLooks) {
  const std::vector<cv::Scalar> twelve = {{200, 40, 40},   {40, 160, 60},  {40, 60, 190},  {230, 180, 40},
                                          {150, 60, 160},  {60, 160, 170}, {120, 80, 50},  {240, 150, 170},
                                          {100, 110, 120}, {20, 30, 60},   {170, 200, 90}, {250, 120, 60}};
  const Laid many(twelve), two({twelve[0], twelve[2]});
  EXPECT_FALSE(are_of_one_print(many.pieces, many.rgb, fit_surface(lab_of(many.rgb))));
  EXPECT_TRUE(are_of_one_print(two.pieces, two.rgb, fit_surface(lab_of(two.rgb))));
  EXPECT_EQ(found_in(many.rgb), 12U);
}

TEST(OnePrint, ChecksThatFillTheFrameAreOneCloth) {
  for (const int side : {60, 93, 140}) {
    EXPECT_EQ(found_in(gingham(side, {250, 250, 246}, {150, 50, 60})), 1U) << side;
    EXPECT_EQ(found_in(gingham(side, {190, 200, 120}, {60, 90, 40})), 1U) << side;
  }
}

}  // namespace
}  // namespace farflung::photo
