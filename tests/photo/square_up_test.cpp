#include "photo/square_up.hpp"

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "colour/srgb.hpp"

namespace farflung::photo {
namespace {

constexpr double kAcross = 100;
const cv::Point2d kHalfAPixel(0.5, 0.5);  ///< from a pixel's corner to its middle

Quad square(cv::Point2d c) {
  return {{c, c + cv::Point2d(kAcross, 0), c + cv::Point2d(kAcross, kAcross), c + cv::Point2d(0, kAcross)}};
}

/// So many dark cloths of one size on a pale table, in rows of four, seen from straight above.
class DarkCloths : public ::testing::Test {
 protected:
  explicit DarkCloths(int count) {
    for (int i = 0; i < count; ++i) {
      const cv::Point2d corner(40 + 130.0 * (i % 4), 40 + 130.0 * (i / 4));
      rgb_(cv::Rect(corner, cv::Size(kAcross, kAcross))).setTo(cv::Scalar(60, 45, 90));
      pieces_.push_back({{square(corner - kHalfAPixel), 0.95}, 1, false});
    }
    plane_.width = plane_.height = kAcross;
    plane_.agreeing = count;
  }

  std::vector<Piece> all_squared_up() const {
    cv::Mat bare(8, 8, CV_32FC3);
    bare.setTo(cv::Scalar(colour::decoded(kTable[0] / 255), colour::decoded(kTable[1] / 255),
                          colour::decoded(kTable[2] / 255)));
    return squared_up(pieces_, plane_, {rgb_, bare});
  }

  const cv::Scalar kTable{205, 200, 190};
  cv::Mat rgb_ = cv::Mat(480, 600, CV_8UC3, kTable);
  std::vector<Piece> pieces_;

 private:
  Plane plane_;
};

/// The last one's upper rim is of the table's own colour, so that nothing shows where it ends.
class CutCloths : public DarkCloths {
 protected:
  CutCloths() : DarkCloths(7) { rgb_(cv::Rect(last(), cv::Size(kAcross, 14))).setTo(kTable); }

  static cv::Point2d last() { return {40 + 2 * 130.0, 40 + 130.0}; }
  static Quad last_outline() { return square(last() - kHalfAPixel); }

  /// The last cloth, its upper side having been found to lean by so many pixels.
  Quad squared_when_leaning(double pixels) {
    pieces_.back().outline.quad[1].y += pixels;
    return all_squared_up().back().outline.quad;
  }
};

TEST_F(CutCloths, ASideThatLeansMoreThanAnyIsCutIsTheRectangles) {
  const Quad quad = squared_when_leaning(9);
  for (int i = 0; i < 4; ++i) EXPECT_LT(cv::norm(quad[i] - last_outline()[i]), 1) << i;
}

TEST_F(CutCloths, ASideThatLeansALittleMayBeCutSo) {
  EXPECT_NEAR(squared_when_leaning(2)[1].y, last_outline()[1].y + 2, 0.5);
}

/// Ten, and one whose outline is moved and must come back.
class FoldedCloths : public DarkCloths {
 protected:
  FoldedCloths() : DarkCloths(10) {}

  /// How far, in pixels, the worst corner of the sixth still lies off after its corners were found so far off, where so
  /// much of it is missing at the left and the right.
  double left_of(const std::array<cv::Point2d, 4>& off, double missing = 0) {
    Quad right = pieces_[5].outline.quad;
    for (int i = 0; i < 4; ++i) right[i].x += i == 0 || i == 3 ? missing : -missing;
    for (int i = 0; i < 4; ++i) pieces_[5].outline.quad[i] += off[i];
    const Quad quad = all_squared_up()[5].outline.quad;
    double worst = 0;
    for (int i = 0; i < 4; ++i) worst = std::max(worst, cv::norm(quad[i] - right[i]));
    return worst;
  }
};

TEST_F(FoldedCloths, WhatIsSeenTooSmallOnAllSidesIsOfTheOneSizeAboutItsOwnMiddle) {
  EXPECT_LT(left_of({{{0.6, 0.6}, {-0.6, 0.6}, {-0.6, -0.6}, {0.6, -0.6}}}), 0.35);
}

TEST_F(FoldedCloths, ASideThatIsALittleOffIsMostlyTheCameras) {
  EXPECT_LT(left_of({{{0, -0.7}, {0, 0.3}, {0, 0}, {0, 0}}}), 0.45);
}

TEST_F(FoldedCloths, SidesThatMeetSayWhereTheOthersLie) {
  EXPECT_LT(left_of({{{-4, 0}, {3, 0}, {3, 3}, {-4, 3}}}), 0.6);
}

/// A stripe along a rim, whose inner edge is taken for the cloth's own: the opposite side keeps its place.
TEST_F(FoldedCloths, AStripeAlongARimIsClothAndTheSideOppositeStaysWhereItIs) {
  const cv::Point2d corner = pieces_[5].outline.quad[1] + kHalfAPixel - cv::Point2d(2, 0);
  rgb_(cv::Rect(corner, cv::Size(2, kAcross))).setTo(cv::Scalar(120, 150, 90));
  const Quad right = pieces_[5].outline.quad;
  for (int i = 1; i < 3; ++i) pieces_[5].outline.quad[i].x -= 2;
  const Quad quad = all_squared_up()[5].outline.quad;
  EXPECT_NEAR(quad[0].x, right[0].x, 0.3);
  EXPECT_NEAR(quad[1].x, right[1].x, 0.7);
}

TEST_F(FoldedCloths, OneThatIsClearlyNarrowerThanTheRestStaysSo) {
  const Quad whole = pieces_[5].outline.quad;
  rgb_(cv::Rect(whole[0] + kHalfAPixel, cv::Size(5, kAcross))).setTo(kTable);
  rgb_(cv::Rect(whole[1] + kHalfAPixel - cv::Point2d(5, 0), cv::Size(5, kAcross))).setTo(kTable);
  EXPECT_LT(left_of({{{5, 0}, {-5, 0}, {-5, 0}, {5, 0}}}, 5), 0.5);
}

TEST(OneCloth, IsDoubtedWhereASideIsNotAtRightAnglesOnTheTable) {
  const cv::Matx33d table_from_photo(1, 0.2, 0, -0.1, 1.1, 0, 0.0002, 0.0004, 1);
  const auto seen = [&](cv::Point2d p) {
    const cv::Vec3d q = table_from_photo.inv() * cv::Vec3d(p.x, p.y, 1);
    return cv::Point2d(q[0] / q[2], q[1] / q[2]);
  };
  const auto doubted = [&](double off) {
    const Piece piece{{{seen({100, 100}), seen({220, 100}), seen({220, 260}), seen({100 + off, 260})}, 0.95}, 1};
    return doubted_if_leaning(piece, table_from_photo).outline.support < 0.6;
  };
  EXPECT_FALSE(doubted(0));
  EXPECT_FALSE(doubted(3));
  EXPECT_TRUE(doubted(12));
  EXPECT_TRUE(doubted(-12));
}

}  // namespace
}  // namespace farflung::photo
