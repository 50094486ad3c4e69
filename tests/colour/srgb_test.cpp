#include "colour/srgb.hpp"

#include <gtest/gtest.h>

#include "base/rng.hpp"

namespace farflung::colour {
namespace {

TEST(Srgb, EveryPixelSurvivesTheWayToLabAndBack) {
  for (int r = 0; r < 256; r += 5) {
    for (int g = 0; g < 256; g += 17) {
      for (int b = 0; b < 256; b += 3) {
        const Srgb pixel{static_cast<std::uint8_t>(r), static_cast<std::uint8_t>(g), static_cast<std::uint8_t>(b)};
        ASSERT_EQ(srgb_from_lab(lab_from_srgb(pixel)), pixel);
      }
    }
  }
}

TEST(Srgb, GreysAreNeutral) {
  for (int v = 0; v < 256; ++v) {
    const auto grey = static_cast<std::uint8_t>(v);
    const Lab lab = lab_from_srgb({grey, grey, grey});
    EXPECT_NEAR(lab.a, 0, 1e-4);
    EXPECT_NEAR(lab.b, 0, 1e-4);
  }
  EXPECT_NEAR(lab_from_srgb({255, 255, 255}).L, 100, 1e-5);
  EXPECT_EQ(lab_from_srgb({0, 0, 0}).L, 0);
}

// The primaries of sRGB under D65, as colour textbooks print them.
TEST(Srgb, PrimariesHaveTheirTextbookLab) {
  const Lab red = lab_from_srgb({255, 0, 0}), blue = lab_from_srgb({0, 0, 255});
  EXPECT_NEAR(red.L, 53.24, 0.01);
  EXPECT_NEAR(red.a, 80.09, 0.01);
  EXPECT_NEAR(red.b, 67.20, 0.01);
  EXPECT_NEAR(blue.L, 32.30, 0.01);
  EXPECT_NEAR(blue.a, 79.19, 0.01);
  EXPECT_NEAR(blue.b, -107.86, 0.01);
}

TEST(Srgb, LightBeyondTheGamutSurvivesLabToo) {
  Rng rng(Seed{5});
  for (int i = 0; i < 1000; ++i) {
    const Light light{rng.between(-0.2, 1.6), rng.between(-0.2, 1.6), rng.between(-0.2, 1.6)};
    const Light back = light_from_lab(lab_from_light(light));
    EXPECT_NEAR(back.r, light.r, 1e-9);
    EXPECT_NEAR(back.g, light.g, 1e-9);
    EXPECT_NEAR(back.b, light.b, 1e-9);
    EXPECT_NEAR(encoded(decoded(light.r)), light.r, 1e-6);
  }
}

}  // namespace
}  // namespace farflung::colour
