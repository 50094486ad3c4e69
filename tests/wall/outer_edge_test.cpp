#include "wall/outer_edge.hpp"

#include <cmath>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::wall {
namespace {

const cv::Scalar kWall(243, 241, 237), kCloth(42, 58, 84);

void fill(cv::Mat& picture, const photo::Corners& corners, const cv::Scalar& colour, double moved = 0) {
  constexpr int kShift = 5;
  std::vector<cv::Point> points;
  for (const auto& [x, y] : corners) {
    points.emplace_back(cvRound((x + moved - 0.5) * (1 << kShift)), cvRound((y + moved - 0.5) * (1 << kShift)));
  }
  cv::fillConvexPoly(picture, points, colour, cv::LINE_AA, kShift);
}

/// How far the corner that is farthest off lies from where it is, in pixels.
double farthest(const photo::Corners& found, const photo::Corners& truth) {
  double most = 0;
  for (std::size_t k = 0; k < 4; ++k) {
    most = std::max(most, std::hypot(found[k][0] - truth[k][0], found[k][1] - truth[k][1]));
  }
  return most;
}

TEST(OuterEdge, OfASewnTopIsNotItsShadowsNorThatOfALabelBelow) {
  const photo::Corners top = {{{101, 96}, {901, 104}, {897, 1004}, {103, 998}}};
  cv::Mat picture(1150, 1000, CV_8UC3, kWall), shadow = picture.clone();
  fill(shadow, top, kWall * 0.7, 6);
  cv::GaussianBlur(shadow, picture, {}, 12);
  fill(picture, top, kCloth);
  cv::putText(picture, "Raffle, 3 June", {110, 1040}, cv::FONT_HERSHEY_SIMPLEX, 1, {20, 20, 20}, 2, cv::LINE_AA);
  const photo::Corners outline = {{{82, 78}, {921, 86}, {917, 1022}, {84, 1044}}};
  EXPECT_LT(farthest(on_own_edges(photo::picture_from(picture), outline), top), 1.5);
}

TEST(OuterEdge, StaysAtABorderOfNearlyTheWallsColour) {
  const photo::Corners top = {{{101, 96}, {901, 96}, {901, 996}, {101, 996}}};
  cv::Mat picture(1150, 1000, CV_8UC3, kWall);
  fill(picture, top, kWall - cv::Scalar(14, 14, 12));
  cv::rectangle(picture, {130, 125}, {871, 966}, kCloth, cv::FILLED);
  EXPECT_LT(farthest(on_own_edges(photo::picture_from(picture), top), top), 1.5);
}

TEST(OuterEdge, OfBlocksOnPointIsTheLineOfTheirTips) {
  const photo::Corners box = {{{100, 100}, {900, 100}, {900, 900}, {100, 900}}};
  cv::Mat picture(1000, 1000, CV_8UC3, kWall);
  for (int i = 0; i < 16; ++i) {
    const cv::Point middle(200 + 200 * (i % 4), 200 + 200 * (i / 4));
    const std::vector<cv::Point> block = {middle + cv::Point(0, -100), middle + cv::Point(100, 0),
                                          middle + cv::Point(0, 100), middle + cv::Point(-100, 0)};
    cv::fillConvexPoly(picture, block, kCloth, cv::LINE_AA);
  }
  EXPECT_LT(farthest(on_own_edges(photo::picture_from(picture), box), box), 1e-6);
}

}  // namespace
}  // namespace farflung::wall
