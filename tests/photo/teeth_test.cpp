#include "photo/teeth.hpp"

#include <cmath>
#include <numbers>
#include <random>

#include <gtest/gtest.h>

namespace farflung::photo {
namespace {

constexpr double kLength = 900;  // pixels

/// How far outward the edge of a toothed side lies, so many teeth from its beginning.
double tooth(double teeth, double depth) { return depth * (std::abs(2 * (teeth - std::floor(teeth)) - 1) - 0.5); }

/// Places all along a side, each as far outward as `out` has it and by some noise more.
template <typename Out>
std::vector<Crossing> crossings(const Out& out) {
  std::mt19937 generator(3);
  std::normal_distribution<double> noise(0, 0.5);
  std::vector<Crossing> points;
  for (int i = 0; i < 400; ++i) {
    const double along = (i + 0.5) / 400;
    points.push_back({along, out(along) + noise(generator)});
  }
  return points;
}

TEST(Teeth, AreKnownByTheirPitch) {
  const auto points = crossings([](double along) { return tooth(along * 50, kToothDepth * 18); });
  const auto pitch = pitch_of_teeth(points, {}, kLength);
  ASSERT_TRUE(pitch);
  EXPECT_NEAR(*pitch, 18, 0.3);
}

TEST(Teeth, AreKnownWhereTheyGrowAlongTheSide) {
  // From a pitch of 15 pixels to one of 21.
  const auto teeth_until = [](double along) {
    return kLength * (along / 15 - 0.5 * along * along * (1.0 / 15 - 1.0 / 21));
  };
  const auto points = crossings([&](double along) { return tooth(teeth_until(along), kToothDepth * 17); });
  const auto pitch = pitch_of_teeth(points, {}, kLength);
  ASSERT_TRUE(pitch);
  EXPECT_NEAR(*pitch, 17.5, 1.5);
}

TEST(Teeth, AreKnownBesideACheckThatMovesTheEdgeMore) {
  const auto points = crossings([](double along) {
    return tooth(along * 50, kToothDepth * 18) + 4 * std::sin(2 * std::numbers::pi * along * 16);
  });
  const auto pitch = pitch_of_teeth(points, {}, kLength);
  ASSERT_TRUE(pitch);
  EXPECT_NEAR(*pitch, 18, 0.3);
}

TEST(Teeth, AreNotSeenInAPlainEdgeNorInACheckAlone) {
  EXPECT_FALSE(pitch_of_teeth(crossings([](double) { return 0.0; }), {}, kLength));
  EXPECT_FALSE(pitch_of_teeth(crossings([](double along) { return 2 * std::sin(2 * std::numbers::pi * along * 16); }),
                              {}, kLength));
}

TEST(Teeth, OfOnePitchOnEnoughSidesAreCommon) {
  EXPECT_DOUBLE_EQ(common_pitch({18, 20, 0, 19}, 3), 19);
  EXPECT_DOUBLE_EQ(common_pitch({18, 20, 0, 0}, 3), 0);
  EXPECT_DOUBLE_EQ(common_pitch({18, 40, 0, 7}, 3), 0);
}

/// Of a side with so many teeth, as deep as shears cut them times `deeper`.
Wandering pinked_side(double length, double teeth, double deeper = 1) {
  const double pitch = length / teeth;
  return {length, pitch, 0.8 * kToothDepth * pitch * deeper};
}

TEST(PinkedRound, TakesAPairOfOppositeSidesAndAThird) {
  const Wandering unseen{560, 0, 1};
  const auto pitches = pinked_round({pinked_side(600, 50), pinked_side(500, 45), pinked_side(660, 52), unseen});
  ASSERT_TRUE(pitches);
  EXPECT_DOUBLE_EQ((*pitches)[0], 12);
  EXPECT_DOUBLE_EQ((*pitches)[3], 560 / 45.0);
  EXPECT_FALSE(pinked_round({pinked_side(600, 50), unseen, pinked_side(660, 50), unseen}));
}

TEST(PinkedRound, IsNoPrintThatRepeatsAlongItsRim) {
  const Wandering side = pinked_side(600, 50);
  EXPECT_FALSE(pinked_round({side, side, pinked_side(600, 62), pinked_side(600, 38)})) << "numbers differ";
  const Wandering shallow = pinked_side(600, 50, 0.3), deep = pinked_side(600, 50, 2);
  EXPECT_FALSE(pinked_round({shallow, shallow, shallow, shallow}));
  EXPECT_FALSE(pinked_round({deep, deep, deep, deep}));
  const Wandering fine = pinked_side(300, 75);
  EXPECT_FALSE(pinked_round({fine, fine, fine, fine}));
}

}  // namespace
}  // namespace farflung::photo
