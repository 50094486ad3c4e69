#include "extract/features.hpp"

#include <algorithm>
#include <numeric>

#include <gtest/gtest.h>
#include <opencv2/core.hpp>

#include "base/rng.hpp"
#include "extract/palette.hpp"
#include "photo/mat.hpp"
#include "simulator/demo.hpp"
#include "simulator/fabric.hpp"
#include "simulator/light.hpp"

namespace farflung::extract {
namespace {

constexpr colour::Srgb kNavy{30, 40, 90}, kCream{240, 230, 205}, kCoral{226, 104, 84};

/// Stripes `width` pixels wide of the colours given, one after another.
photo::Picture stripes(const std::vector<colour::Srgb>& colours, int width, int columns = 300, int rows = 240) {
  photo::Picture picture(columns, rows);
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      picture.set(column, row, colours[static_cast<std::size_t>(column / width) % colours.size()]);
    }
  }
  return picture;
}

TEST(Features, MeanColourIsOfLightNotOfPixelValues) {
  const colour::Lab lab = mean_colour(stripes({{0, 0, 0}, {255, 255, 255}}, 10));
  EXPECT_NEAR(lab.L, 76.07, 0.01);  // half the light of white
  EXPECT_NEAR(lab.a, 0, 1e-3);
}

TEST(Features, BlackOnWhiteIsNoMidGrey) {
  EXPECT_GT(value_range(stripes({{0, 0, 0}, {255, 255, 255}}, 20)), 90);
  EXPECT_LT(value_range(stripes({{119, 119, 119}}, 20)), 1);
}

TEST(Features, BusynessRisesFromPlainToLoud) {
  const double plain = busyness(stripes({kNavy}, 10), {});
  const double quiet = busyness(stripes({kNavy, {44, 54, 104}}, 10), {});
  const double loud = busyness(stripes({kNavy, kCream}, 10), {});
  EXPECT_NEAR(plain, 0, 0.01);
  EXPECT_GT(quiet, plain + 0.05);
  EXPECT_GT(loud, quiet + 0.3);
  EXPECT_LE(loud, 1);
}

TEST(Features, WhatWasToldByHandStays) {
  print::Features before;
  before.lab = {12, 3, 4};
  before.busyness = 0.9;
  before.by_hand = {"lab"};
  const print::Features features = features_of(stripes({kCream}, 10), {}, before);
  EXPECT_EQ(features.lab, before.lab);
  EXPECT_EQ(features.by_hand, before.by_hand);
  EXPECT_LT(features.busyness, 0.1);
}

TEST(Features, EveryOneOfThemToldByHandStays) {
  print::Features before;
  before.lab = {12, 3, 4};
  before.palette = {{{12, 3, 4}, 1}};
  before.value_range = 77;
  before.scale = 4.5;
  before.busyness = 0.9;
  before.direction = {print::Direction::Kind::one_way, 270};
  before.by_hand = {"lab", "palette", "value_range", "scale", "busyness", "direction"};
  const print::Features features = features_of(stripes({kCream, kNavy}, 20), 6, before);
  EXPECT_EQ(features.lab, before.lab);
  ASSERT_EQ(features.palette.size(), 1U);
  EXPECT_EQ(features.value_range, 77);
  EXPECT_EQ(features.scale, 4.5);
  EXPECT_EQ(features.busyness, 0.9);
  EXPECT_EQ(features.direction.kind, print::Direction::Kind::one_way);
  EXPECT_EQ(features.direction.degrees, 270);
}

TEST(Palette, GivesTheColoursOfAPrintAndTheirShares) {
  const auto palette = palette_of(stripes({kNavy, kNavy, kCream, kCoral}, 15));
  ASSERT_EQ(palette.size(), 3U);
  EXPECT_LT(colour::delta_e_2000(palette[0].lab, colour::lab_from_srgb(kNavy)), 1);
  EXPECT_NEAR(palette[0].share, 0.5, 0.04);
  for (const colour::Srgb ink : {kCream, kCoral}) {
    EXPECT_TRUE(std::any_of(palette.begin(), palette.end(), [&](const print::PaletteColour& c) {
      return colour::delta_e_2000(c.lab, colour::lab_from_srgb(ink)) < 1 && std::abs(c.share - 0.25) < 0.04;
    }));
  }
}

TEST(Palette, NoShareIsAHairOverTheWhole) {
  Rng rng(Seed{5});
  for (int trial = 0; trial < 200; ++trial) {
    const cv::Scalar colour(rng.below(256), rng.below(256), rng.below(256));
    cv::Mat grain(70, 70, CV_16SC3), cloth;
    cv::RNG(static_cast<std::uint64_t>(trial) + 1).fill(grain, cv::RNG::NORMAL, colour, cv::Scalar::all(2.5));
    grain.convertTo(cloth, CV_8U);
    for (const print::PaletteColour& each : palette_of(photo::picture_from(cloth))) EXPECT_LE(each.share, 1) << trial;
  }
}

TEST(Palette, SharesSumToOneAndColoursStandApartOnEveryPrint) {
  for (const simulator::Fabric& fabric : simulator::demo_fabrics()) {
    const photo::Picture swatch =
        photo::picture_from(simulator::srgb_picture(simulator::cut(fabric, {0, 0, 5, 5}, 50)));
    const auto palette = palette_of(swatch);
    ASSERT_GE(palette.size(), 1U);
    ASSERT_LE(palette.size(), 6U);
    double sum = 0;
    for (std::size_t i = 0; i < palette.size(); ++i) {
      sum += palette[i].share;
      if (i > 0) {
        EXPECT_GE(palette[i - 1].share, palette[i].share);
      }
      for (std::size_t j = 0; j < i; ++j) EXPECT_GE(colour::delta_e_2000(palette[i].lab, palette[j].lab), 3);
    }
    EXPECT_NEAR(sum, 1, 1e-9) << fabric.name;
  }
}

}  // namespace
}  // namespace farflung::extract
