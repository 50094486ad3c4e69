#include "draw/picture.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "base/rng.hpp"
#include "colour/srgb.hpp"
#include "draw/grey.hpp"

namespace farflung::draw {
namespace {

Picture speckled(int width, int height, Seed seed) {
  Rng rng(seed);
  Picture picture = blank(width, height);
  for (auto& byte : picture.rgb) byte = static_cast<std::uint8_t>(rng.below(256));
  return picture;
}

/// Soft spots in no order, so that neighbouring pixels are alike and far ones are not.
Picture spotted(int width, int height, Seed seed) {
  Rng rng(seed);
  Picture picture = blank(width, height);
  for (auto& byte : picture.rgb) byte = 120;
  for (int spot = 0; spot < 60; ++spot) {
    const double cx = rng.between(0, width), cy = rng.between(0, height), radius = rng.between(6, 14);
    const int by = rng.below(2) == 0 ? 60 : -60;
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        const double far = std::hypot(x - cx, y - cy) / radius;
        for (int c = 0; c < 3 && far < 1; ++c) {
          picture.at(x, y)[c] = static_cast<std::uint8_t>(120 + by * (1 - far * far));
        }
      }
    }
  }
  return picture;
}

double mean_light(const Picture& picture) {
  double sum = 0;
  for (std::uint8_t byte : picture.rgb) sum += colour::decoded(byte);
  return sum / static_cast<double>(picture.rgb.size());
}

double step(const Picture& picture, int x0, int y0, int x1, int y1) {
  double sum = 0;
  for (int c = 0; c < 3; ++c) sum += std::abs(picture.at(x0, y0)[c] - picture.at(x1, y1)[c]);
  return sum / 3;
}

TEST(Picture, ReducingKeepsTheMeanLight) {
  const Picture large = speckled(173, 121, Seed{3});
  for (int width : {120, 57, 20, 3, 1}) {
    const Picture small = reduced(large, width);
    EXPECT_EQ(small.width, width);
    EXPECT_NEAR(mean_light(small), mean_light(large), 0.004) << width;
  }
}

TEST(Picture, NothingIsEnlarged) {
  const Picture picture = speckled(30, 20, Seed{1});
  EXPECT_EQ(reduced(picture, 60), picture);
}

TEST(Picture, ARepeatingTileJoinsItselfAsSmoothlyAsItsOwnPixelsJoin) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const Picture cloth = spotted(160, 120, Seed{seed});
    const Picture tile = repeating(cloth);
    EXPECT_GE(tile.width, 120);
    EXPECT_LE(tile.width, 144);
    EXPECT_GE(tile.height, 90);
    EXPECT_LE(tile.height, 108);
    double inside = 0, across = 0, down = 0, unmended = 0;
    for (int y = 0; y < tile.height; ++y) {
      for (int x = 1; x < tile.width; ++x) inside += step(tile, x - 1, y, x, y);
      across += step(tile, tile.width - 1, y, 0, y);
    }
    inside /= tile.height * (tile.width - 1);
    across /= tile.height;
    for (int x = 0; x < tile.width; ++x) down += step(tile, x, tile.height - 1, x, 0) / tile.width;
    for (int y = 0; y < cloth.height; ++y) unmended += step(cloth, cloth.width - 1, y, 0, y) / cloth.height;
    EXPECT_LT(across, 2.5 * inside + 1) << "seed " << seed;
    EXPECT_LT(down, 2.5 * inside + 1) << "seed " << seed;
    EXPECT_LT(across, unmended) << "seed " << seed;
  }
}

TEST(Picture, StripesGoOnInStepWhereTheTileRepeats) {
  for (const int pitch : {7, 11, 20}) {
    Picture cloth = blank(200, 60);
    for (int y = 0; y < 60; ++y) {
      for (int x = 0; x < 200; ++x) cloth.at(x, y)[0] = (x / pitch) % 2 == 0 ? 255 : 0;
    }
    const Picture tile = repeating(cloth);
    EXPECT_EQ(tile.width % (2 * pitch), 0) << pitch;
  }
}

TEST(Picture, GreyKeepsEveryPixelsLightness) {
  Rng rng(Seed{9});
  for (int i = 0; i < 2'000; ++i) {
    const colour::Srgb pixel{static_cast<std::uint8_t>(rng.below(256)), static_cast<std::uint8_t>(rng.below(256)),
                             static_cast<std::uint8_t>(rng.below(256))};
    const std::uint8_t level = grey_of(pixel);
    // Half a level of 8 bits is at most 0.26 in L*.
    EXPECT_NEAR(colour::lab_from_srgb({level, level, level}).L, colour::lab_from_srgb(pixel).L, 0.27);
  }
}

TEST(Picture, EmptySwatchesStayEmptyWhateverIsDone) {
  EXPECT_TRUE(reduced(Picture(), 10).empty());
  EXPECT_TRUE(repeating(Picture()).empty());
  EXPECT_TRUE(in_grey(Picture()).empty());
}

}  // namespace
}  // namespace farflung::draw
