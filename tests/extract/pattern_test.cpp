#include "extract/pattern.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "extract/autocorrelation.hpp"
#include "extract/features.hpp"
#include "extract/one_way.hpp"
#include "photo/mat.hpp"
#include "simulator/fabric.hpp"
#include "simulator/light.hpp"

namespace farflung::extract {
namespace {

/// Soft stripes `period` pixels apart that run `degrees` clockwise from along x.
photo::Picture stripes(double period, double degrees) {
  photo::Picture picture(420, 360);
  const double angle = degrees * M_PI / 180;
  for (int row = 0; row < picture.rows; ++row) {
    for (int column = 0; column < picture.columns; ++column) {
      const double across = row * std::cos(angle) - column * std::sin(angle);
      const double t = 0.5 + 0.5 * std::sin(2 * M_PI * across / period);
      picture.set(column, row,
                  {static_cast<std::uint8_t>(60 + 150 * t), static_cast<std::uint8_t>(80 + 100 * t),
                   static_cast<std::uint8_t>(140 - 60 * t)});
    }
  }
  return picture;
}

TEST(Repeat, StripesHaveTheirAngleToTwoDegreesAndTheirPeriodToFivePercent) {
  for (const double degrees : {0.0, 17.0, 45.0, 90.0, 121.0, 164.0}) {
    const Repeat repeat = repeat_of(stripes(36, degrees));
    ASSERT_EQ(repeat.direction.kind, print::Direction::Kind::stripe) << degrees;
    const double off = std::remainder(repeat.direction.degrees - degrees, 180);
    EXPECT_LT(std::abs(off), 2) << degrees;
    ASSERT_TRUE(repeat.size.has_value()) << degrees;
    EXPECT_NEAR(*repeat.size, 36, 1.8) << degrees;
  }
}

TEST(Repeat, BandsThatRunOneWayAndTheOtherByTurnsAreAStripe) {
  const simulator::Fabric fabric{"A", "herringbone", {0xf4efe4, 0x2f5f8b}, 1.2, Seed{4}};
  const auto picture = photo::picture_from(simulator::srgb_picture(simulator::cut(fabric, {0, 0, 6, 6}, 40)));
  const auto features = features_of(picture, 6);
  ASSERT_EQ(features.direction.kind, print::Direction::Kind::stripe);
  EXPECT_NEAR(features.direction.degrees, 90, 2);
  ASSERT_TRUE(features.scale.has_value());
  EXPECT_NEAR(*features.scale, *simulator::truth_of(fabric).scale, 0.05 * *features.scale);
}

TEST(Repeat, PlainClothHasNeitherSizeNorDirection) {
  const Repeat repeat = repeat_of(photo::Picture(400, 400, {90, 120, 150}));
  EXPECT_FALSE(repeat.size.has_value());
  EXPECT_EQ(repeat.direction.kind, print::Direction::Kind::none);
}

/// 400 pixels of cloth, so that the design repeats eight times across.
photo::Picture eight_across(const simulator::Fabric& fabric) {
  const double inches = 8 * fabric.motif;
  return photo::picture_from(simulator::srgb_picture(simulator::cut(fabric, {0, 0, inches, inches}, 400 / inches)));
}

TEST(Repeat, OfPrintsWithAPlainGridComesBackInInches) {
  const std::vector<simulator::Ink> inks = {0xf4efe4, 0x2f5f8b};
  for (const char* design : {"houndstooth", "gingham", "windowpane"}) {
    const simulator::Fabric fabric{"A", design, inks, 0.8, Seed{4}};
    const auto features = features_of(eight_across(fabric), 8 * fabric.motif);
    ASSERT_TRUE(features.scale.has_value()) << design;
    EXPECT_NEAR(*features.scale, fabric.motif, 0.05 * fabric.motif) << design;
    EXPECT_EQ(features.direction.kind, print::Direction::Kind::none) << design;
  }
}

photo::Picture piece(const simulator::Fabric& fabric) {
  return photo::picture_from(simulator::srgb_picture(simulator::cut(fabric, {0.3, 0.7, 6, 6}, 60)));
}

TEST(Repeat, OfMotifsInAHalfDropIsTheSquareThatEachHasToItself) {
  for (const char* design : {"dots", "pin dots", "net", "compass", "breakers", "regatta", "pennants"}) {
    const simulator::Fabric fabric{"A", design, {0x2f3f55, 0xe9dfc8, 0xd0803a, 0x9fc0c8, 0xb04a40}, 0.9, Seed{4}};
    const auto features = features_of(piece(fabric), 6);
    const auto scale = simulator::truth_of(fabric).scale;
    ASSERT_TRUE(features.scale && scale) << design;
    EXPECT_NEAR(*features.scale, *scale, 0.05 * *scale) << design;
  }
}

TEST(Repeat, OfTossedMotifsIsToldByTheirNeighbours) {
  for (const char* design : {"spilt dots", "sprig", "foliage", "spray", "cockles", "gannets"}) {
    const simulator::Fabric fabric{"A", design, {0x2f3f55, 0xe9dfc8, 0xd0803a, 0x9fc0c8, 0xb04a40}, 0.8, Seed{9}};
    const auto features = features_of(piece(fabric), 6);
    const auto scale = simulator::truth_of(fabric).scale;
    ASSERT_TRUE(features.scale && scale) << design;
    EXPECT_NEAR(*features.scale, *scale, 0.08 * *scale) << design;
  }
}

TEST(Repeat, OfMotifsThatDifferInTheirInkAloneCountsThemAll) {
  const simulator::Fabric fabric{"A", "dots", {0xf4efe4, 0x2f5f8b, 0xa04a3a}, 0.9, Seed{4}};
  EXPECT_NEAR(features_of(piece(fabric), 6).scale.value_or(0), 0.9 / std::sqrt(2.0), 0.03);
}

TEST(Repeat, StripedPrintsAreStripesWhateverTheirStrands) {
  for (const char* design : {"awning", "ticking", "deck chair", "ropes", "swell"}) {
    const simulator::Fabric fabric{"A", design, {0xf0e6d2, 0x3f6f86, 0xc9573c}, 0.8, Seed{4}};
    const auto features = features_of(piece(fabric), 6);
    const simulator::Truth truth = simulator::truth_of(fabric);
    EXPECT_EQ(features.direction.kind, print::Direction::Kind::stripe) << design;
    EXPECT_LT(std::abs(std::remainder(features.direction.degrees - truth.direction.degrees, 180)), 2) << design;
    EXPECT_NEAR(features.scale.value_or(0), *truth.scale, 0.05 * *truth.scale) << design;
  }
}

photo::Picture upside_down(const photo::Picture& picture) {
  photo::Picture turned(picture.columns, picture.rows);
  for (int row = 0; row < picture.rows; ++row) {
    for (int column = 0; column < picture.columns; ++column) {
      turned.set(picture.columns - 1 - column, picture.rows - 1 - row, picture.at(column, row));
    }
  }
  return turned;
}

print::Direction::Kind direction_of(const char* design, double motif, bool turned = false) {
  const simulator::Fabric fabric{"A", design, {0x2f3f55, 0xe9dfc8, 0xd0803a, 0x9fc0c8, 0xb04a40}, motif, Seed{4}};
  return repeat_of(turned ? upside_down(piece(fabric)) : piece(fabric)).direction.kind;
}

TEST(Repeat, MotifsThatAllStandOneWayAreToldWhicheverEndIsUp) {
  for (const char* design : {"regatta", "breakers", "pennants", "trailing", "shoal"}) {
    EXPECT_EQ(direction_of(design, 0.7), print::Direction::Kind::one_way) << design;
    EXPECT_EQ(direction_of(design, 0.7, true), print::Direction::Kind::one_way) << design;
  }
}

TEST(Repeat, TossedAndSymmetricalMotifsHaveNoWayUp) {
  for (const char* design : {"cockles", "sprig", "foliage", "meadow", "shingle", "spray", "scrolls", "dots", "net",
                             "plaid", "gingham", "houndstooth", "windowpane", "compass", "crosses"}) {
    for (const double motif : {0.45, 0.7, 1.1})
      EXPECT_EQ(direction_of(design, motif), print::Direction::Kind::none) << design << " " << motif;
  }
}

TEST(Repeat, MotifsOfAnySizeMayBeAskedWhetherTheyStandOneWay) {
  const std::vector<cv::Mat> channels = detail_of(photo::Picture(300, 280, {90, 120, 150}), 288, 0.2).channels;
  for (const double side : {2.0, 4.9, 5.1, 30.0, 200.0, 600.0}) EXPECT_FALSE(stands_one_way(channels, side)) << side;
}

TEST(Repeat, CoarseWeaveHidesNoStripe) {
  photo::Picture picture = stripes(80, 63);
  for (int row = 0; row < picture.rows; ++row) {
    for (int column = 0; column < picture.columns; ++column) {
      const int thread = ((row / 3) + (column / 3)) % 2 == 0 ? 22 : -22;
      const colour::Srgb p = picture.at(column, row);
      const auto lit = [&](std::uint8_t part) { return static_cast<std::uint8_t>(part + thread); };
      picture.set(column, row, {lit(p.r), lit(p.g), lit(p.b)});
    }
  }
  const Repeat repeat = repeat_of(picture);
  EXPECT_EQ(repeat.direction.kind, print::Direction::Kind::stripe);
  EXPECT_NEAR(repeat.direction.degrees, 63, 2);
  EXPECT_NEAR(repeat.size.value_or(0), 80, 4);
}

TEST(Repeat, IsKnownAsAShareOfTheSwatchWhereInchesAreNot) {
  const auto features = features_of(stripes(42, 90));
  EXPECT_FALSE(features.scale.has_value());
  EXPECT_NEAR(features.scale_share.value_or(0), 0.1, 0.005);
}

}  // namespace
}  // namespace farflung::extract
