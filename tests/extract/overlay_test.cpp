#include "extract/overlay.hpp"

#include <gtest/gtest.h>

#include "photo/mat.hpp"
#include "simulator/fabric.hpp"
#include "simulator/light.hpp"

namespace farflung::extract {
namespace {

/// A piece 5 in wide of a print of tossed or of regular motifs, at 30 pixels to the inch.
Look piece(const simulator::Fabric& fabric, double x, double y, std::optional<double> inches = 5.0) {
  return look_of(photo::picture_from(simulator::srgb_picture(simulator::cut(fabric, {x, y, 5, 5}, 30))), inches);
}

simulator::Fabric tossed(Seed seed, double motif = 0.9) {
  return {"A", "sprig", {0xf4efe4, 0x2f5f8b, 0xb3473d}, motif, seed};
}

TEST(LaidOver, PiecesOfOneClothShowTheSameInOnePlaceAlone) {
  const print::Overlay overlay = laid_over(piece(tossed(Seed{4}), 0, 0), piece(tossed(Seed{4}), 1.3, 0.8));
  EXPECT_GT(overlay.likeness, 0.7);
  EXPECT_LT(overlay.next, 0.5);
  EXPECT_EQ(overlay.octaves, 0);
}

TEST(LaidOver, ASliverOfClothLiesOverOthersLikeAnyPiece) {
  photo::Picture sliver(900, 8);  // as narrow as a swatch may be drawn by hand
  for (std::size_t i = 0; i < sliver.rgb.size(); ++i) sliver.rgb[i] = static_cast<std::uint8_t>(60 + i * 37 % 120);
  const Look look = look_of(sliver, std::nullopt);
  EXPECT_GT(laid_over(look, look).likeness, 0.9);
  EXPECT_LT(laid_over(look, piece(tossed(Seed{4}), 0, 0, std::nullopt)).likeness, 0.9);
}

TEST(LaidOver, TheSameMotifsTossedOtherwiseAreNotAlike) {
  EXPECT_LT(laid_over(piece(tossed(Seed{4}), 0, 0), piece(tossed(Seed{5}), 0, 0)).likeness, 0.5);
}

TEST(LaidOver, CastAndContrastCountNothing) {
  const Look one = piece(tossed(Seed{4}), 0, 0);
  Look other = one;
  for (std::size_t i = 0; i < other.picture.rgb.size(); i += 3) {
    for (std::size_t c = 0; c < 3; ++c) {
      const double share = c == 0 ? 0.8 : c == 1 ? 0.7 : 0.5;
      other.picture.rgb[i + c] = static_cast<std::uint8_t>(20 + share * other.picture.rgb[i + c]);
    }
  }
  EXPECT_GT(laid_over(one, other).likeness, 0.95);
}

TEST(LaidOver, TellsBySoMuchAPrintIsLarger) {
  const simulator::Fabric small{"A", "dots", {0xf4efe4, 0x2f5f8b}, 0.6, Seed{4}};
  simulator::Fabric large = small;
  large.motif *= 1.25;  // a third of an octave
  EXPECT_NEAR(laid_over(piece(large, 0, 0), piece(small, 0, 0)).octaves, 0.32, 0.06);
  // The same where nothing is known but shares of the swatches.
  EXPECT_NEAR(laid_over(piece(large, 0, 0, {}), piece(small, 0, 0, {})).octaves, 0.32, 0.06);
}

TEST(LaidOver, SizesAndInchesMayDiffer) {
  const Look narrow =
      look_of(photo::picture_from(simulator::srgb_picture(simulator::cut(tossed(Seed{4}), {0.5, 0.5, 3, 5}, 50))), 3.0);
  const print::Overlay overlay = laid_over(piece(tossed(Seed{4}), 0, 0), narrow);
  EXPECT_GT(overlay.likeness, 0.6);
  EXPECT_NEAR(overlay.octaves, 0, 0.06);
}

}  // namespace
}  // namespace farflung::extract
