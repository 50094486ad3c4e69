#include "photo/shade.hpp"

#include <algorithm>

#include <gtest/gtest.h>
#include <opencv2/core.hpp>

#include "photo/surface.hpp"

namespace farflung::photo {
namespace {

constexpr int kColumns = 320, kRows = 240;
constexpr float kDeepest = 0.87F;  // cube root of the light that is left
const cv::Vec3f kTable(84, 1, 9), kRoot(16, 0, 0);
const cv::Rect kCloth(90, 70, 110, 100);

/// A shade over the right of the picture, its rim `wide` pixels wide and running through the cloth.
float shade(int column, int wide) {
  const float t = std::clamp((static_cast<float>(column) - 150) / static_cast<float>(wide) + 0.5F, 0.0F, 1.0F);
  return 1 - (1 - kDeepest) * t * t * (3 - 2 * t);
}

cv::Vec3f lit(const cv::Vec3f& lab, float root) { return root * (lab + kRoot) - kRoot; }

/// A table under that shade, and a cloth of its hue, a little darker, upon it.
cv::Mat photographed(int wide) {
  cv::Mat lab(kRows, kColumns, CV_32FC3), noise(kRows, kColumns, CV_32FC3);
  for (int row = 0; row < kRows; ++row) {
    for (int column = 0; column < kColumns; ++column) {
      const cv::Vec3f own = kCloth.contains({column, row}) ? lit(kTable, 0.93F) : kTable;
      lab.at<cv::Vec3f>(row, column) = lit(own, shade(column, wide));
    }
  }
  cv::RNG rng(5);
  rng.fill(noise, cv::RNG::NORMAL, 0, 0.3);
  return lab + noise;
}

TEST(Shade, IsPartOfTheSurfaceAndRunsOnUnderTheCloth) {
  const Surface surface = fit_surface(photographed(40));
  for (const int column : {20, 60, 110, 150, 185, 240, 300}) {
    for (const int row : {20, 120, 225}) {
      const double guessed = kCloth.contains({column, row}) ? 3.5 : 0;
      EXPECT_NEAR(surface.expected.at<cv::Vec3f>(row, column)[0], lit(kTable, shade(column, 40))[0], 1 + guessed)
          << column << ' ' << row;
    }
  }
  EXPECT_LT(surface.noise, 1);
}

TEST(Shade, DoesNotTakeUpAClothOfTheSurfacesHue) {
  const cv::Mat lab = photographed(40);
  const Surface surface = fit_surface(lab);
  for (const int column : {110, 150, 185}) {
    EXPECT_GT(surface.unlike(lab.at<cv::Vec3f>(120, column), surface.expected.at<cv::Vec3f>(120, column), false),
              kUnlike)
        << column;
  }
}

TEST(Shade, WhoseRimIsSharpIsFollowedWhereItReachesThePicturesRim) {
  const Surface surface = fit_surface(photographed(2));
  for (const int column : {40, 250})
    EXPECT_NEAR(surface.expected.at<cv::Vec3f>(30, column)[0], lit(kTable, shade(column, 2))[0], 1);
}

TEST(Shade, IsNotTrustedWhereHardlyAnySurfaceIsSmooth) {
  cv::Mat lab(kRows, kColumns, CV_32FC3);
  cv::RNG rng(6);
  rng.fill(lab, cv::RNG::UNIFORM, cv::Scalar(60, -5, -5), cv::Scalar(90, 5, 5));
  EXPECT_FALSE(shade_on(lab, fit_surface(lab)));
}

}  // namespace
}  // namespace farflung::photo
