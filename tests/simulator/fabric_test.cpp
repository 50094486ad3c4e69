#include "simulator/fabric.hpp"

#include <cmath>
#include <set>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "simulator/demo.hpp"
#include "simulator/design.hpp"
#include "simulator/light.hpp"

namespace farflung::simulator {
namespace {

// One thread for the whole program: on a busy machine OpenCV's pool waits longer for its helpers than the work takes.
[[maybe_unused]] const bool kOneThread = [] {
  cv::setNumThreads(1);
  return true;
}();

double apart(const colour::Lab& a, const colour::Lab& b) { return std::hypot(a.L - b.L, a.a - b.a, a.b - b.b); }

// The step between the last and the first row, over the largest between neighbouring rows inside.
double seam(const cv::Mat& picture) {
  cv::Mat inside, across, rows;
  cv::absdiff(picture.rowRange(1, picture.rows), picture.rowRange(0, picture.rows - 1), inside);
  cv::reduce(inside.reshape(1), rows, 1, cv::REDUCE_AVG);
  cv::absdiff(picture.row(0), picture.row(picture.rows - 1), across);
  double most = 0;
  cv::minMaxLoc(rows, nullptr, &most);
  return cv::mean(across.reshape(1))[0] / most;
}

TEST(Light, WhiteBlackAndMidGreyHaveTheirPublishedLab) {
  EXPECT_NEAR(lab_of({1, 1, 1}).L, 100, 1e-6);
  EXPECT_NEAR(lab_of({0, 0, 0}).L, 0, 1e-9);
  const colour::Lab red = lab_of({1, 0, 0});  // IEC 61966-2-1 primaries in CIELAB: 53.24, 80.09, 67.20
  EXPECT_NEAR(red.L, 53.24, 0.02);
  EXPECT_NEAR(red.a, 80.09, 0.05);
  EXPECT_NEAR(red.b, 67.20, 0.05);
}

TEST(Light, DaylightOf6504KelvinLeavesWhiteWhite) {
  const cv::Vec3d white = cast_of(6504) * cv::Vec3d(1, 1, 1);
  EXPECT_NEAR(white[0], 1, 0.01);
  EXPECT_NEAR(white[2], 1, 0.01);
  const cv::Vec3d lamp = cast_of(2700) * cv::Vec3d(1, 1, 1);
  EXPECT_GT(lamp[0], 1.4);
  EXPECT_LT(lamp[2], 0.35);
}

TEST(Fabric, EveryDesignIsDrawnAlikeTwiceAndWrapsRound) {
  for (const Design& design : designs()) {
    const Fabric fabric{
        design.name, design.name, {0x204060, 0xd0c0a0, 0x804030, 0xf0e8d8, 0x508050, 0xe0b040}, 0.8, {7}};
    const cv::Mat once = cloth(fabric, 30), again = cloth(fabric, 30);
    ASSERT_EQ(once.size(), tile_of(fabric, 30).pixels()) << design.name;
    EXPECT_EQ(cv::norm(once, again, cv::NORM_INF), 0) << design.name;
    EXPECT_LT(seam(once), 1.25) << design.name;
    EXPECT_LT(seam(once.t()), 1.25) << design.name;
  }
}

TEST(Fabric, IsOneColourAtEveryResolution) {
  for (const Fabric& fabric : demo_fabrics()) {
    const colour::Lab fine = lab_of(mean_light(cloth(fabric, 70))), coarse = lab_of(mean_light(cloth(fabric, 18)));
    EXPECT_LT(apart(fine, coarse), 1.0) << fabric.name;
  }
}

TEST(Fabric, SharesOfItsPaletteSumToOne) {
  for (const Fabric& fabric : bundle(6, Seed{3})) {
    double sum = 0;
    for (const print::PaletteColour& colour : truth_of(fabric).palette) sum += colour.share;
    EXPECT_NEAR(sum, 1, 1e-9) << fabric.design;
  }
}

TEST(Fabric, ABundleRunsFromDarkToLightInAsManyDesigns) {
  const std::vector<Fabric> fabrics = bundle(24, Seed{11});
  std::set<std::string> designs_seen;
  double darkest = 100, lightest = 0;
  for (const Fabric& fabric : fabrics) {
    designs_seen.insert(fabric.design);
    const double value = lab_of(mean_light(cloth(fabric, 15))).L;
    darkest = std::min(darkest, value);
    lightest = std::max(lightest, value);
  }
  EXPECT_EQ(designs_seen.size(), 24u);
  EXPECT_LT(darkest, 40);
  EXPECT_GT(lightest, 80);
}

TEST(Fabric, TheDemosPrintsAreAllDifferentAndSpreadInValue) {
  const std::vector<Fabric> fabrics = demo_fabrics();
  ASSERT_GE(fabrics.size(), 18u);
  std::vector<colour::Lab> labs;
  for (const Fabric& fabric : fabrics) labs.push_back(lab_of(mean_light(cloth(fabric, 20))));
  std::set<int> decades;
  for (std::size_t i = 0; i < labs.size(); ++i) {
    decades.insert(static_cast<int>(labs[i].L) / 10);
    for (std::size_t j = i + 1; j < labs.size(); ++j) {
      EXPECT_GT(apart(labs[i], labs[j]), 4) << fabrics[i].name << " and " << fabrics[j].name;
    }
  }
  EXPECT_GE(decades.size(), 6u);
}

}  // namespace
}  // namespace farflung::simulator
