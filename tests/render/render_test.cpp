#include "render/render.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "colour/srgb.hpp"
#include "draw/grey.hpp"
#include "draw/pieces.hpp"
#include "draw/top.hpp"
#include "support/patterns.hpp"
#include "support/worlds.hpp"

namespace farflung::render {
namespace {

using draw::Picture;
using support::random_quilt;

/// 8 in of cloth at 100 pixels to the inch: upright stripes, one inch black and one inch white.
Picture striped() {
  Picture picture = draw::blank(800, 600);
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      for (int c = 0; c < 3; ++c) picture.at(x, y)[c] = (x / 100) % 2 == 0 ? 0 : 255;
    }
  }
  return picture;
}

TEST(Render, EachPatchShowsItsPrintsColour) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = random_quilt(Seed{5}, world.wanted);
    const setting::Plan plan = quilt::plan_of(quilt);
    const draw::Top top = draw::top_of(quilt, plan, {.relief = false});
    const auto picture = pixels(top.display, {}, 700);
    ASSERT_TRUE(picture);
    const double scale = 700 / top.display.width;
    for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) {
      for (const draw::Piece& piece : draw::pieces_in_cell(quilt, plan, static_cast<int>(cell))) {
        const draw::Vec at = scale * (top.corner + draw::spot_within(piece.outline, 0.1, 0.1).centre);
        const std::uint8_t* found = picture->at(static_cast<int>(at.x), static_cast<int>(at.y));
        const colour::Srgb wanted = colour::srgb_from_lab(quilt.prints[piece.print].features.lab);
        EXPECT_NEAR(found[0], wanted.r, 1) << world.name;
        EXPECT_NEAR(found[1], wanted.g, 1) << world.name;
        EXPECT_NEAR(found[2], wanted.b, 1) << world.name;
      }
    }
  }
}

/// The number of changes between dark and light along a row or column of a square patch, kept off its edges.
int changes(const Picture& picture, bool along_row) {
  int count = 0;
  bool was = false;
  for (int i = 4; i < picture.width - 4; ++i) {
    const bool light = picture.at(along_row ? i : 100, along_row ? 100 : i)[0] > 127;
    if (i > 4 && light != was) ++count;
    was = light;
  }
  return count;
}

TEST(Render, ClothIsShownAtItsTrueScaleAndTurned) {
  for (const int size : {200, 331, 600}) {
    for (const double degrees : {0.0, 90.0, 180.0, 270.0}) {
      draw::Display display{6, 6, {}};
      display.add(draw::Area{draw::outline_of({0, 0, 6, 6}), draw::Cloth{0, 8, degrees, 0.3, 0.6, draw::kWhite}});
      const auto picture = pixels(display, {striped()}, size);
      ASSERT_TRUE(picture);
      const bool across = degrees == 0 || degrees == 180;
      // Six inches of one-inch stripes: five or six changes across them, none along.
      EXPECT_NEAR(changes(*picture, across), 5.5, 0.6) << size << " " << degrees;
      EXPECT_EQ(changes(*picture, !across), 0) << size << " " << degrees;
    }
  }
}

TEST(Render, LongStripsRepeatTheirClothWithoutAGap) {
  draw::Display display{40, 2, {}};
  display.add(draw::Area{draw::outline_of({0, 0, 40, 2}), draw::Cloth{0, 8, 0, 0.3, 0.6, draw::kWhite}});
  Picture plain = draw::blank(80, 80);
  for (auto& byte : plain.rgb) byte = 90;
  const auto picture = pixels(display, {plain}, 1000);
  ASSERT_TRUE(picture);
  for (int x = 1; x < 999; ++x) EXPECT_NEAR(picture->at(x, 25)[0], 90, 1);
}

TEST(Render, GreyIsGreyEverywhere) {
  support::Wanted wanted;
  wanted.borders = wanted.sashing = true;
  const quilt::Quilt quilt = random_quilt(Seed{5}, wanted);
  const setting::Plan plan = quilt::plan_of(quilt);
  const draw::Display grey = draw::in_grey(draw::top_of(quilt, plan, draw::pinned_up(plan)).display);
  const auto picture = pixels(grey, {}, 400);
  ASSERT_TRUE(picture);
  for (std::size_t i = 0; i < picture->rgb.size(); i += 3) {
    ASSERT_TRUE(picture->rgb[i] == picture->rgb[i + 1] && picture->rgb[i] == picture->rgb[i + 2]) << "byte " << i;
  }
}

TEST(Render, TheSamePictureIsTheSameBytes) {
  const quilt::Quilt quilt = random_quilt(Seed{5}, {});
  const draw::Display top = draw::top_of(quilt, quilt::plan_of(quilt)).display;
  const draw::Swatches swatches = {striped(), {}, striped()};
  for (const auto make : {png, svg}) {
    const auto first = make(top, swatches, 300);
    const auto again = make(top, swatches, 300);
    ASSERT_TRUE(first && again);
    EXPECT_EQ(*first, *again);
  }
}

TEST(Render, PicturesAreWhatTheySayTheyAre) {
  const quilt::Quilt quilt = random_quilt(Seed{5}, {});
  const draw::Display top = draw::top_of(quilt, quilt::plan_of(quilt)).display;
  EXPECT_EQ(png(top, {}, 200)->substr(1, 3), "PNG");
  const std::string text = *svg(top, {striped()}, 200);
  EXPECT_NE(text.find("<svg "), std::string::npos);
  EXPECT_NE(text.find("width=\"200px\""), std::string::npos);
  EXPECT_NE(text.find("</svg>"), std::string::npos);
}

TEST(Render, SizesThatMakeNoPictureAreRefused) {
  const draw::Display square{10, 10, {}};
  EXPECT_FALSE(png(square, {}, 0));
  EXPECT_FALSE(png(square, {}, 20'000));
  EXPECT_FALSE(png({}, {}, 100));
}

}  // namespace
}  // namespace farflung::render
