#include "photo/pinked_alike.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "colour/srgb.hpp"
#include "photo/teeth.hpp"

namespace farflung::photo {
namespace {

constexpr int kAcross = 240;    ///< pixels, from tip to tip
constexpr double kPitch = 8;    ///< pixels
constexpr double kBlur = 2.0;   ///< pixels: leaves a fifth of how teeth of that pitch wander
constexpr double kTable = 0.6;  ///< linear light

Quad square(cv::Point2d corner, double inward) {
  const double left = corner.x + inward, top = corner.y + inward, side = kAcross - 2 * inward;
  return {cv::Point2d(left, top), {left + side, top}, {left + side, top + side}, {left, top + side}};
}

/// Teeth along the inside of a square, as pinking shears leave them.
std::vector<cv::Point2d> toothed(cv::Point2d corner) {
  constexpr int kHalves = static_cast<int>(2 * kAcross / kPitch);
  std::vector<cv::Point2d> outline;
  const Quad tips = square(corner, 0);
  for (int i = 0; i < 4; ++i) {
    const Side side = side_of(tips, i);
    for (int k = 0; k < kHalves; ++k)
      outline.push_back(side.place(static_cast<double>(k) / kHalves, k % 2 == 0 ? 0 : -kToothDepth * kPitch));
  }
  return outline;
}

std::vector<cv::Point2d> straight(cv::Point2d corner) {
  const Quad quad = square(corner, kToothDepth * kPitch / 2);
  return {quad.begin(), quad.end()};
}

/// Four cloths seen from straight above through a wide blur, each with stripes of its own that meet its edges.
class FourCloths : public ::testing::Test {
 protected:
  template <typename Outline>
  void lay(const Outline& outline_of) {
    constexpr int kFiner = 4, kSize = 600, kShift = 4;
    cv::Mat light(kFiner * kSize, kFiner * kSize, CV_32FC3, cv::Scalar::all(kTable));
    for (int i = 0; i < 4; ++i) {
      const int across = i % 2, down = i / 2;
      const cv::Point2d corner(40.0 + 280 * across, 40.0 + 280 * down);
      std::vector<cv::Point> outline;
      for (const cv::Point2d p : outline_of(corner)) outline.emplace_back((p + cv::Point2d(0.5, 0.5)) * kFiner * 16);
      cv::Mat inside = cv::Mat::zeros(light.size(), CV_8U), print(light.size(), CV_32FC3, cv::Scalar(0.08, 0.12, 0.2));
      cv::fillPoly(inside, std::vector<std::vector<cv::Point>>{outline}, 255, cv::LINE_8, kShift);
      const int repeat = kFiner * (9 + 4 * i);
      for (int at = 0; at < light.cols; at += repeat) {
        print.colRange(at, std::min(light.cols, at + repeat / 3)).setTo(cv::Scalar(0.3, 0.25, 0.1));
      }
      print.copyTo(light, inside);
      pieces_.push_back({{square(corner, kToothDepth * kPitch / 2), 0.95}, 1, false});
    }
    cv::resize(light, light, {kSize, kSize}, 0, 0, cv::INTER_AREA);
    cv::GaussianBlur(light, light, {}, kBlur);
    cv::Mat rgb(light.size(), CV_8UC3);
    cv::RNG rng(5);
    for (int row = 0; row < kSize; ++row) {
      for (int column = 0; column < kSize; ++column) {
        for (int c = 0; c < 3; ++c) {
          const double value = 255 * colour::encoded(light.at<cv::Vec3f>(row, column)[c]) + rng.gaussian(1.5);
          rgb.at<cv::Vec3b>(row, column)[c] = cv::saturate_cast<std::uint8_t>(value);
        }
      }
    }
    lit_ = {rgb, cv::Mat(8, 8, CV_32FC3, cv::Scalar::all(kTable))};
  }

  double pitch() const { return shared_pitch(pieces_, plane_, lit_); }

  Plane plane_;
  std::vector<Piece> pieces_;

 private:
  Lit lit_;
};

TEST_F(FourCloths, ShareThePitchOfTeethOfWhichABlurLeavesLittle) {
  lay(toothed);
  EXPECT_NEAR(pitch(), kPitch, 0.15);
}

TEST_F(FourCloths, ShareNoneWhereTheyAreCutStraight) {
  lay(straight);
  EXPECT_EQ(pitch(), 0);
}

TEST_F(FourCloths, OfWhichTwoAreToldAreSeenHalfWayUpAllTeeth) {
  lay(toothed);
  for (const std::size_t i : {1, 2}) {
    Outline& outline = pieces_[i].outline;
    outline.quad = square(outline.quad[0] - cv::Point2d(1, 1) * (kToothDepth * kPitch / 2), 0);
    outline.pitch = kPitch, outline.at_tips = true;
  }
  EXPECT_NEAR(pitch(), kPitch, 0.15);
}

TEST_F(FourCloths, AreLaidAlongTheirTipsWhereverTheyWereFound) {
  lay(toothed);
  Outline& told = pieces_[2].outline;
  const cv::Point2d corner = told.quad[0] - cv::Point2d(1, 1) * (kToothDepth * kPitch / 2);
  told.quad = square(corner, 0), told.pitch = kPitch, told.at_tips = true;
  for (const Piece& piece : along_tips(pieces_, kPitch, plane_)) {
    const Quad& quad = piece.outline.quad;
    EXPECT_NEAR(quad[1].x - quad[0].x, kAcross, 0.01);
    EXPECT_NEAR(quad[2].y - quad[1].y, kAcross, 0.01);
    EXPECT_TRUE(piece.outline.at_tips);
    EXPECT_NEAR(piece.outline.depth, kToothDepth * kPitch, 0.1);
  }
}

TEST(SharedPitch, IsNoneOfNoCloths) { EXPECT_EQ(shared_pitch({}, {}, {}), 0); }

}  // namespace
}  // namespace farflung::photo
