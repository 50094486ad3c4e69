#include "photo/located.hpp"

#include <cmath>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "colour/srgb.hpp"
#include "photo/blurred_edge.hpp"
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

TEST(Located, FindsASideThatTheRoughOutlineHasFarTooFarIn) {
  const Ground ground = ground_of(blurred_scene(0.6, {0.2, 0.3, 0.35}, 1));
  const Quad truth = scene_truth();
  Quad rough = truth;
  rough[1].x -= 9, rough[2].x -= 9;
  const Outline found = located(rough, ground);
  for (int i = 0; i < 4; ++i) EXPECT_LT(cv::norm(found.quad[i] - truth[i]), 1) << "corner " << i;
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
