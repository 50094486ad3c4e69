#include "photo/located.hpp"

#include <cmath>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "colour/srgb.hpp"
#include "photo/blurred_edge.hpp"
#include "photo/teeth.hpp"
#include "photo/told.hpp"

namespace farflung::photo {
namespace {

const cv::Rect kCloth(110, 80, 180, 150);

/// Evenly coloured, with grain; drawn in light and blurred in light, as a lens does it. Square about `kCloth`.
cv::Mat blurred_scene(double table, const cv::Scalar& cloth, double blur) {
  cv::Mat light(310, 400, CV_32FC3, cv::Scalar::all(table));
  cv::rectangle(light, kCloth, cloth, cv::FILLED);
  cv::GaussianBlur(light, light, {}, blur);
  cv::Mat rgb(light.size(), CV_8UC3);
  cv::RNG rng(11);
  for (int row = 0; row < light.rows; ++row) {
    for (int column = 0; column < light.cols; ++column) {
      for (int c = 0; c < 3; ++c) {
        const double value = 255 * colour::encoded(light.at<cv::Vec3f>(row, column)[c]) + rng.gaussian(1.5);
        rgb.at<cv::Vec3b>(row, column)[c] = cv::saturate_cast<std::uint8_t>(value);
      }
    }
  }
  return rgb;
}

Quad scene_truth() {
  const double left = kCloth.x - 0.5, top = kCloth.y - 0.5;
  return {cv::Point2d(left, top),
          {left + kCloth.width, top},
          {left + kCloth.width, top + kCloth.height},
          {left, top + kCloth.height}};
}

Ground ground_of(const cv::Mat& rgb) {
  cv::Mat smooth;
  cv::GaussianBlur(rgb, smooth, {3, 3}, 0.7);
  const Surface surface = fit_surface(lab_of(smooth));
  return {smooth, told_from(smooth, surface, 12).unlike, surface, lit_from(rgb, surface), {}};
}

Quad grown(const Quad& quad, double by) {
  return {quad[0] + cv::Point2d(-by, -by), quad[1] + cv::Point2d(by, -by), quad[2] + cv::Point2d(by, by),
          quad[3] + cv::Point2d(-by, by)};
}

TEST(Located, WhatAWideBlurMixesDrawsABrightClothNoWiderOnADarkTable) {
  const Ground ground = ground_of(blurred_scene(0.012, {0.45, 0.55, 0.4}, 1.8));
  const Quad truth = scene_truth();
  const Outline found = located(grown(truth, 3), ground);
  for (int i = 0; i < 4; ++i) {
    EXPECT_NEAR(found.quad[i].x, truth[i].x, 1) << "corner " << i;
    EXPECT_NEAR(found.quad[i].y, truth[i].y, 1) << "corner " << i;
  }
}

TEST(Located, LooksForTheEdgeAsFarAsAWideBlurSpillsABrightClothsColours) {
  const Ground ground = ground_of(blurred_scene(0.008, {0.4, 0.1, 0.3}, 2.8));
  const Quad truth = scene_truth();
  const Outline found = located(grown(truth, 3), ground);
  for (int i = 0; i < 4; ++i) EXPECT_LT(cv::norm(found.quad[i] - truth[i]), 1.2) << "corner " << i;
}

TEST(Located, FindsASideThatTheRoughOutlineHasFarTooFarIn) {
  const Ground ground = ground_of(blurred_scene(0.6, {0.2, 0.3, 0.35}, 1));
  const Quad truth = scene_truth();
  Quad rough = truth;
  rough[1].x -= 9, rough[2].x -= 9;
  const Outline found = located(rough, ground);
  for (int i = 0; i < 4; ++i) EXPECT_LT(cv::norm(found.quad[i] - truth[i]), 1) << "corner " << i;
}

/// A pinked square of 900 pixels, its tips on the square: teeth of 22 pixels are shallow for so long a side.
cv::Mat pinked_scene(const cv::Rect& cloth) {
  constexpr int kTeeth = 41;
  const double depth = kToothDepth * cloth.width / kTeeth;
  std::vector<cv::Point> outline;
  constexpr int kShift = 6;
  for (int i = 0; i < 4; ++i) {
    const cv::Point2d ways[] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}}, way = ways[i], in = ways[(i + 1) % 4];
    const cv::Point2d from(cloth.x - 0.5 + (i == 1 || i == 2 ? cloth.width : 0),
                           cloth.y - 0.5 + (i >= 2 ? cloth.height : 0));
    for (int k = 0; k < 2 * kTeeth; ++k) {
      const cv::Point2d at = from + way * (cloth.width * k / (2.0 * kTeeth)) + in * (k % 2 == 1 ? depth : 0);
      outline.emplace_back(cvRound(at.x * (1 << kShift)), cvRound(at.y * (1 << kShift)));
    }
  }
  cv::Mat rgb(1300, 1300, CV_8UC3, cv::Scalar::all(205)), grain(rgb.size(), CV_8UC3);
  cv::fillPoly(rgb, std::vector<std::vector<cv::Point>>{outline}, {70, 60, 80}, cv::LINE_AA, kShift);
  cv::GaussianBlur(rgb, rgb, {}, 1);
  cv::RNG rng(7);
  rng.fill(grain, cv::RNG::NORMAL, 10, 1.5);
  return rgb + grain - cv::Scalar::all(10);
}

TEST(Located, TakesTheTipsOfTeethThatAreShallowForALongSide) {
  const cv::Rect cloth(200, 200, 900, 900);
  const Ground ground = ground_of(pinked_scene(cloth));
  const double left = cloth.x - 0.5, right = left + cloth.width;
  const Quad truth = {cv::Point2d(left, left), {right, left}, {right, right}, {left, right}};
  const Outline found = located(grown(truth, -8), ground);
  EXPECT_TRUE(found.pinked);
  for (int i = 0; i < 4; ++i) EXPECT_LT(cv::norm(found.quad[i] - truth[i]), 2) << "corner " << i;
}

TEST(Located, HasNoTeethWhereItIsKnownNotToBePinked) {
  const cv::Rect cloth(200, 200, 900, 900);
  const double left = cloth.x - 0.5, right = left + cloth.width;
  const Quad tips = {cv::Point2d(left, left), {right, left}, {right, right}, {left, right}};
  const Outline found = located(grown(tips, -8), ground_of(pinked_scene(cloth)), 0.06, false);
  EXPECT_EQ(found.pitch, 0);
  EXPECT_FALSE(found.pinked);
  EXPECT_EQ(found.beyond_edge(), 0);
}

TEST(BlurredEdge, FitsWhereTheEdgeRunsAndNotBesideIt) {
  const Ground ground = ground_of(blurred_scene(0.012, {0.45, 0.55, 0.4}, 1.6));
  const Quad truth = scene_truth();
  for (int side = 0; side < 4; ++side) {
    const double right = misfit_of_edge(truth, side, ground.lit);
    EXPECT_LT(right, 0.2) << "side " << side;
    EXPECT_GT(misfit_of_edge(grown(truth, 2.5), side, ground.lit), right + 0.2) << "side " << side;
    EXPECT_GT(misfit_of_edge(grown(truth, -2.5), side, ground.lit), right + 0.2) << "side " << side;
  }
}

}  // namespace
}  // namespace farflung::photo
