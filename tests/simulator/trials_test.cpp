#include "simulator/trials.hpp"

#include <cmath>
#include <set>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "simulator/light.hpp"

namespace farflung::simulator {
namespace {

constexpr Range kSmall{.longest_side = 320};

double apart(const colour::Lab& a, const colour::Lab& b) { return std::hypot(a.L - b.L, a.a - b.a, a.b - b.b); }

TEST(Trials, SeedsForTuningAreNeverThoseForTests) {
  std::set<std::uint64_t> seeds;
  for (int i = 0; i < 1000; ++i) {
    seeds.insert(trial_seed(Purpose::tuning, i).value);
    seeds.insert(trial_seed(Purpose::test, i).value);
  }
  EXPECT_EQ(seeds.size(), 2000u);
}

TEST(Trials, EveryCornerLiesWithinThePicture) {
  for (int i = 0; i < 8; ++i) {
    const Photograph photograph = photographed(trial(trial_seed(Purpose::test, i), kSmall));
    const cv::Rect2d frame(0, 0, photograph.srgb.cols - 1, photograph.srgb.rows - 1);
    for (const Seen& cloth : photograph.cloths) {
      for (const cv::Point2d corner : cloth.corners) EXPECT_TRUE(frame.contains(corner)) << i << corner;
    }
  }
}

TEST(Trials, ClothsOfOnePictureDoNotOverlap) {
  for (int i = 0; i < 40; ++i) {
    const Trial one = trial(trial_seed(Purpose::test, i), kSmall);
    std::vector<std::vector<cv::Point2f>> outlines;
    for (const Placed& cloth : one.scene.cloths) {
      const std::vector<cv::Point2d> corners = corners_of(cloth);
      outlines.emplace_back(corners.begin(), corners.end());
    }
    for (std::size_t a = 0; a < outlines.size(); ++a) {
      for (std::size_t b = a + 1; b < outlines.size(); ++b) {
        std::vector<cv::Point2f> common;
        EXPECT_LE(cv::intersectConvexConvex(outlines[a], outlines[b], common), 0) << "picture " << i;
      }
    }
  }
}

TEST(Trials, RunOverOneManyAndThirtyCloths) {
  std::size_t alone = 0, most = 0;
  for (int i = 0; i < 40; ++i) {
    const std::size_t count = trial(trial_seed(Purpose::test, i), kSmall).scene.cloths.size();
    alone += count == 1;
    most = std::max(most, count);
  }
  EXPECT_GT(alone, 10u);
  EXPECT_GT(most, 26u);
}

TEST(Trials, RetakenShowsTheSameFabricsLaidAnew) {
  const Trial first = trial(trial_seed(Purpose::test, 3), kSmall), second = retaken(first, Seed{99}, kSmall);
  ASSERT_EQ(first.scene.cloths.size(), second.scene.cloths.size());
  EXPECT_EQ(first.scene.cloths[0].fabric.inks, second.scene.cloths[0].fabric.inks);
  EXPECT_NE(first.scene.cloths[0].from, second.scene.cloths[0].from);
  EXPECT_NE(first.shot.light.kelvin, second.shot.light.kelvin);
}

TEST(Trials, ASisterPrintIsNearInColourButNotTheSame) {
  const std::vector<Fabric> fabrics = bundle(12, Seed{31});
  for (std::size_t i = 0; i < fabrics.size(); ++i) {
    const Fabric sister = sister_of(fabrics[i], Seed{i});
    const double distance = apart(lab_of(mean_light(cloth(fabrics[i], 15))), lab_of(mean_light(cloth(sister, 15))));
    EXPECT_GT(distance, 2) << fabrics[i].design;
    EXPECT_LT(distance, 16) << fabrics[i].design;
  }
}

TEST(Trials, AHandAtTheRimChangesOnlyTheRim) {
  Trial one = trial(trial_seed(Purpose::test, 1), kSmall);
  one.scene.strays.clear();
  one.shot.camera.margin = 0.15;
  one.shot.develop = {};
  const Photograph without = photographed(one);
  one.scene.strays.push_back({});
  const Photograph with = photographed(one);
  cv::Mat changed;
  cv::absdiff(without.srgb, with.srgb, changed);
  EXPECT_GT(cv::countNonZero(changed.reshape(1)), 100);
  for (const Seen& cloth : with.cloths) {
    for (const cv::Point2d corner : cloth.corners) {
      EXPECT_EQ(cv::norm(changed.at<cv::Vec3b>(cvRound(corner.y), cvRound(corner.x))), 0);
    }
  }
}

}  // namespace
}  // namespace farflung::simulator
