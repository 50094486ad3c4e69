#include "photo/square_up.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "colour/srgb.hpp"

namespace farflung::photo {
namespace {

constexpr double kAcross = 100;

/// Seven dark cloths of one size on a pale table, seen from straight above; the last one's upper rim is of the table's
/// own colour, so that nothing shows where it ends.
class CutCloths : public ::testing::Test {
 protected:
  CutCloths() {
    for (int i = 0; i < 7; ++i) {
      const cv::Point2d corner(40 + 130.0 * (i % 4), 40 + 130.0 * (i / 4));
      rgb_(cv::Rect(corner, cv::Size(kAcross, kAcross))).setTo(cv::Scalar(60, 45, 90));
      pieces_.push_back({{square(corner), 0.95}, 1, false});
    }
    rgb_(cv::Rect(last(), cv::Size(kAcross, 14))).setTo(kTable);
    plane_.width = plane_.height = kAcross;
    plane_.agreeing = 7;
  }

  static Quad square(cv::Point2d c) {
    return {{c, c + cv::Point2d(kAcross, 0), c + cv::Point2d(kAcross, kAcross), c + cv::Point2d(0, kAcross)}};
  }
  static cv::Point2d last() { return {40 + 2 * 130.0, 40 + 130.0}; }

  /// The last cloth, its upper side having been found to lean by so many pixels.
  Quad squared_when_leaning(double pixels) {
    pieces_.back().outline.quad[1].y += pixels;
    cv::Mat bare(8, 8, CV_32FC3);
    bare.setTo(cv::Scalar(colour::decoded(kTable[0] / 255), colour::decoded(kTable[1] / 255),
                          colour::decoded(kTable[2] / 255)));
    return squared_up(pieces_, plane_, {rgb_, bare}).back().outline.quad;
  }

 private:
  const cv::Scalar kTable{205, 200, 190};
  cv::Mat rgb_ = cv::Mat(320, 600, CV_8UC3, kTable);
  std::vector<Piece> pieces_;
  Plane plane_;
};

TEST_F(CutCloths, ASideThatLeansMoreThanAnyIsCutIsTheRectangles) {
  const Quad quad = squared_when_leaning(9);
  for (int i = 0; i < 4; ++i) EXPECT_LT(cv::norm(quad[i] - square(last())[i]), 1) << i;
}

TEST_F(CutCloths, ASideThatLeansALittleMayBeCutSo) { EXPECT_NEAR(squared_when_leaning(2)[1].y, last().y + 2, 0.5); }

}  // namespace
}  // namespace farflung::photo
