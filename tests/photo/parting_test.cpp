#include "photo/parting.hpp"

#include <array>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

/// A cloth of pale and dark stripes, the pale one outermost and hardly other than the table, its shadow beside it.
cv::Mat pale_edged_cloth(const cv::Rect& cloth) {
  cv::Mat rgb(300, 400, CV_8UC3, cv::Scalar(228, 222, 210));
  cv::rectangle(rgb, {cloth.x + 3, cloth.y + 3, cloth.width, cloth.height}, cv::Scalar(190, 185, 175), cv::FILLED);
  for (int x = 0; x < cloth.width; ++x) {
    const cv::Scalar ink = x / 9 % 2 == 0 ? cv::Scalar(214, 222, 200) : cv::Scalar(60, 80, 120);
    cv::line(rgb, {cloth.x + x, cloth.y}, {cloth.x + x, cloth.y + cloth.height - 1}, ink);
  }
  cv::GaussianBlur(rgb, rgb, {}, 0.8);
  cv::Mat noise(rgb.size(), CV_16SC3);
  cv::RNG rng(5);
  rng.fill(noise, cv::RNG::NORMAL, 0, 2.5);
  cv::add(rgb, noise, rgb, {}, CV_8U);
  return rgb;
}

Quad quad_of(const cv::Rect& cloth) {
  const double left = cloth.x - 0.5, top = cloth.y - 0.5, right = left + cloth.width, below = top + cloth.height;
  return {cv::Point2d(left, top), {right, top}, {right, below}, {left, below}};
}

TEST(Parting, FindsTheEdgeBeyondAPaleStripeAndBesideItsShadow) {
  const cv::Rect cloth(100, 70, 189, 150);
  const cv::Mat rgb = pale_edged_cloth(cloth);
  const Quad truth = quad_of(cloth);
  Quad rough = truth;
  rough[0] += cv::Point2d(6, -4), rough[1] += cv::Point2d(-5, 3), rough[2] += cv::Point2d(4, 5),
      rough[3] += cv::Point2d(-3, -6);
  cv::Mat smooth;
  cv::GaussianBlur(rgb, smooth, {3, 3}, 0.7);
  const Parted found = Parting(rough, rgb, fit_surface(lab_of(smooth)), 9).best();
  for (int i = 0; i < 4; ++i) {
    EXPECT_LT(cv::norm(found.quad[i] - truth[i]), 2) << "corner " << i;
    EXPECT_GT(found.clear[i], 1) << "side " << i;
  }
}

TEST(Parting, TellsWhichSidesOfAnotherOutlinePartHardlyWorse) {
  const cv::Rect cloth(100, 70, 189, 150);
  const cv::Mat rgb = pale_edged_cloth(cloth);
  const Quad truth = quad_of(cloth);
  cv::Mat smooth;
  cv::GaussianBlur(rgb, smooth, {3, 3}, 0.7);
  const Parting parting(truth, rgb, fit_surface(lab_of(smooth)), 9);
  const Parted best = parting.best();
  Quad other = truth;
  other[0].x += 6, other[3].x += 6;  // the left side alone lies beyond the outer stripe
  const std::array<bool, 4> expected{true, true, true, false};
  EXPECT_EQ(parting.hardly_worse(other, best), expected);
}

TEST(Parting, LeavesASideWhereThereIsNothingToPart) {
  const cv::Mat rgb = pale_edged_cloth({100, 70, 189, 150});
  cv::Mat smooth;
  cv::GaussianBlur(rgb, smooth, {3, 3}, 0.7);
  const Quad nowhere = quad_of({310, 20, 60, 30});
  const Parted found = Parting(nowhere, rgb, fit_surface(lab_of(smooth)), 6).best();
  for (int i = 0; i < 4; ++i) EXPECT_LT(cv::norm(found.quad[i] - nowhere[i]), 1e-6);
}

}  // namespace
}  // namespace farflung::photo
