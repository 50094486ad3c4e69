#include "simulator/photographer.hpp"

#include <cmath>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "simulator/light.hpp"

namespace farflung::simulator {
namespace {

Shot small_shot() {
  Shot shot;
  shot.camera.pixels = {640, 480};
  return shot;
}

double apart(const colour::Lab& a, const colour::Lab& b) { return std::hypot(a.L - b.L, a.a - b.a, a.b - b.b); }

// The mean light inside a cloth's outline drawn in by `share` of its size; white at 0 EV is undone.
colour::Lab inside(const Photograph& photograph, const Seen& cloth, double share) {
  cv::Point2d middle;
  for (const cv::Point2d corner : cloth.corners) middle += corner * 0.25;
  std::vector<cv::Point> outline;
  for (const cv::Point2d corner : cloth.corners) {
    const cv::Point2d p = middle + (corner - middle) * (1 - share);
    outline.emplace_back(cvRound(p.x), cvRound(p.y));
  }
  cv::Mat mask = cv::Mat::zeros(photograph.srgb.size(), CV_8U);
  cv::fillConvexPoly(mask, outline, 255);
  return lab_of(mean_light(linear_picture(photograph.srgb), mask) * (1 / 0.8));
}

TEST(Photographer, InPlainDaylightEveryClothShowsItsTrueColour) {
  const Scene scene = in_rows(bundle(6, Seed{21}), 3, 5, 6, 0.7, 3, Seed{2});
  const Photograph photograph = photographed(scene, small_shot(), Seed{1});
  ASSERT_EQ(photograph.cloths.size(), 6u);
  for (const Seen& cloth : photograph.cloths) {
    EXPECT_LT(apart(inside(photograph, cloth, 0.04), cloth.lab), 2.0) << cloth.name;
  }
}

TEST(Photographer, ACornerIsWhereClothGivesWayToTable) {
  for (double slant : {0.0, 30.0}) {
    Fabric plain{"plain", "sailcloth", {0x204060, 0x204060}, 1, {1}};
    Scene scene = in_rows({plain}, 1, 6, 8, 1, 5, Seed{4});
    scene.cloths[0].thickness = 0;
    scene.cloths[0].waviness = 0;
    scene.surface.unevenness = 0;
    Shot shot = small_shot();
    shot.camera.slant = slant;
    shot.camera.azimuth = 130;
    const Photograph photograph = photographed(scene, shot, Seed{1});
    cv::Mat grey;
    cv::cvtColor(photograph.srgb, grey, cv::COLOR_RGB2GRAY);
    const Seen& cloth = photograph.cloths[0];
    double area = 0;  // of the cloth, by its pixels: partly covered ones count in part
    const double dark = grey.at<uchar>(240, 320), light = grey.at<uchar>(3, 3);
    for (int y = 0; y < grey.rows; ++y) {
      for (int x = 0; x < grey.cols; ++x) area += (light - grey.at<uchar>(y, x)) / (light - dark);
    }
    const std::vector<cv::Point2f> outline(cloth.corners.begin(), cloth.corners.end());
    EXPECT_NEAR(area / cv::contourArea(outline), 1, 0.03) << slant;
    for (std::size_t k = 0; k < 4; ++k) {  // a tenth of the way in is cloth, a tenth out is table
      const cv::Point2d corner = cloth.corners[k], across = cloth.corners[(k + 2) % 4] - corner;
      const cv::Point2d in = corner + across * 0.02, out = corner - across * 0.02;
      EXPECT_LT(grey.at<uchar>(cvRound(in.y), cvRound(in.x)), (dark + light) / 2);
      EXPECT_GT(grey.at<uchar>(cvRound(out.y), cvRound(out.x)), (dark + light) / 2);
    }
  }
}

TEST(Photographer, SameSeedSamePixelsAnotherSeedOtherNoise) {
  const Scene scene = in_rows(bundle(2, Seed{5}), 2, 5, 6, 0.7, 3, Seed{2});
  Shot shot = small_shot();
  shot.develop.noise = 0.01;
  const cv::Mat once = photographed(scene, shot, Seed{1}).srgb, again = photographed(scene, shot, Seed{1}).srgb;
  const cv::Mat other = photographed(scene, shot, Seed{2}).srgb;
  EXPECT_EQ(cv::norm(once, again, cv::NORM_INF), 0);
  EXPECT_GT(cv::norm(once, other, cv::NORM_INF), 0);
}

TEST(Photographer, LampLightWarmsAndTheCamerasBalanceTakesItOut) {
  const Scene scene = in_rows(bundle(1, Seed{5}), 1, 5, 6, 0.7, 0, Seed{2});
  Shot shot = small_shot();
  shot.light.kelvin = 2700;
  shot.develop.balance = 0.4;
  const cv::Vec3b warm = photographed(scene, shot, Seed{1}).srgb.at<cv::Vec3b>(4, 4);
  shot.develop.balance = 1;
  const cv::Vec3b neutral = photographed(scene, shot, Seed{1}).srgb.at<cv::Vec3b>(4, 4);
  EXPECT_GT(warm[0] - warm[2], 60);
  EXPECT_LT(std::abs(neutral[0] - neutral[2]), 22);
}

TEST(Photographer, LightFallsOffByTheShareAsked) {
  Light light;
  light.fall_off = 0.4;
  const cv::Mat lit = light_over(light, {320, 240});
  double least, most;
  cv::minMaxLoc(lit, &least, &most);
  EXPECT_NEAR(least / most, 0.6, 0.03);
}

TEST(Photographer, AClothThatOverfillsTheFrameHasTheFramesCorners) {
  const Scene scene = in_rows(bundle(1, Seed{5}), 1, 9, 7, 0, 0, Seed{2});
  Shot shot = small_shot();
  shot.camera.margin = -0.1;
  const Photograph photograph = photographed(scene, shot, Seed{1});
  ASSERT_TRUE(photograph.cloths[0].fills_frame);
  EXPECT_EQ(photograph.cloths[0].corners[2], cv::Point2d(639, 479));
}

TEST(Photographer, APrintedPageLiesWhereTheTruthSays) {
  // Left half black, right half white; one cloth beside it.
  cv::Mat page(110, 85, CV_8U, cv::Scalar(255));
  page.colRange(0, 42).setTo(0);
  Scene scene = in_rows(bundle(1, Seed{5}), 1, 5, 6, 0.7, 0, Seed{2});
  lay_beside(scene, printed(page, 8.5, 11), 0.5);
  Shot shot = small_shot();
  shot.camera.slant = 20;
  const Photograph photograph = photographed(scene, shot, Seed{1});
  ASSERT_EQ(photograph.papers.size(), 1u);
  const auto at = [&](double x, double y) {
    const cv::Point2d p = projected(photograph.papers[0].photo_from_page, {x, y});
    return photograph.srgb.at<cv::Vec3b>(cvRound(p.y), cvRound(p.x))[1] / 255.0;
  };
  for (double y : {0.5, 5.5, 10.5}) {
    EXPECT_LT(at(3.6, y), srgb_from_linear(0.05));
    EXPECT_NEAR(at(5.0, y), srgb_from_linear(0.8 * Stationery().white[1]), 0.02);
  }
  const cv::Point2d corner = projected(photograph.papers[0].photo_from_page, {8.5, 11});
  EXPECT_LT(cv::norm(corner - photograph.papers[0].corners[2]), 1e-6);
}

TEST(Photographer, ThroughAWindowInAPageTheClothBelowIsSeen) {
  Scene scene = in_rows(bundle(1, Seed{5}), 1, 6, 8, 0.7, 0, Seed{2});
  Paper page = page_of_boxes({{-4, -5, 1, 1}}, cv::Rect2d(-2, -2, 4, 4), 8.5, 11);
  page.centre = scene.cloths[0].centre;
  Shot shot = small_shot();
  const Photograph bare = photographed(scene, shot, Seed{1});
  const auto cloth_from_table = [&](const Photograph& photograph, double x, double y) {
    const cv::Point2d p = projected(photograph.photo_from_table, page.centre + cv::Point2d(x, y));
    const cv::Rect box(cvRound(p.x) - 8, cvRound(p.y) - 8, 17, 17);
    return lab_of(mean_light(linear_picture(photograph.srgb(box))));
  };
  scene.papers.push_back(page);
  const Photograph covered = photographed(scene, shot, Seed{1});
  const double white = lab_of(Stationery().white * 0.8).L;
  EXPECT_NEAR(cloth_from_table(covered, 0, 3).L, white, 1);
  EXPECT_LT(cloth_from_table(covered, 0, 0).L, white - 10);
}

TEST(Photographer, WritesJpegOfTheQualityAsked) {
  const Photograph photograph =
      photographed(in_rows(bundle(1, Seed{5}), 1, 5, 6, 0, 0, Seed{2}), small_shot(), Seed{1});
  const auto good = jpeg_of(photograph.srgb, 95), poor = jpeg_of(photograph.srgb, 70);
  ASSERT_GT(poor.size(), 1000u);
  EXPECT_EQ(poor[0], 0xff);
  EXPECT_EQ(poor[1], 0xd8);
  EXPECT_GT(good.size(), poor.size());
}

}  // namespace
}  // namespace farflung::simulator
