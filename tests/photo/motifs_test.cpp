// Cloths of which, on a surface of their own ground's colour, little but the motifs is seen.
#include "photo/motifs.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "photo/find.hpp"

namespace farflung::photo {
namespace {

constexpr colour::Srgb kTable = {214, 204, 188};
constexpr colour::Srgb kNearlyTable = {209, 199, 185};

void fill(Picture& picture, int left, int top, int width, int height, colour::Srgb colour) {
  for (int row = top; row < top + height; ++row) {
    for (int column = left; column < left + width; ++column) picture.set(column, row, colour);
  }
}

/// Blotches all over a ground that is nearly the table's, cut at the rim of the cloth.
void lay_blotched(Picture& picture, int left, int top, int width, int height) {
  fill(picture, left, top, width, height, kNearlyTable);
  for (int row = top; row < top + height; ++row) {
    for (int column = left; column < left + width; ++column) {
      const double x = std::sin(0.11 * column + 0.02 * row), y = std::sin(0.12 * row - 0.015 * column);
      if (x * y > 0.15) picture.set(column, row, {120, 130, 90});
    }
  }
}

double farthest(const Corners& corners, const Corners& truth) {
  double most = 0;
  for (std::size_t i = 0; i < 4; ++i)
    most = std::max(most, std::hypot(corners[i][0] - truth[i][0], corners[i][1] - truth[i][1]));
  return most;
}

TEST(Motifs, AreOneClothWhereItsGroundIsTheTables) {
  Picture picture(1200, 900, kTable);
  lay_blotched(picture, 300, 200, 600, 500);
  const Findings findings = find_cloths(picture);
  ASSERT_EQ(findings.cloths.size(), 1U);
  EXPECT_LT(farthest(findings.cloths[0].corners, {{{300, 200}, {900, 200}, {900, 700}, {300, 700}}}), 15);
}

/// Dots on a ground that is nearly the table's, none at its corners.
void lay_dotted(Picture& picture, int left, int top, int width, int height) {
  fill(picture, left, top, width, height, kNearlyTable);
  for (int row = 0; row < height; ++row) {
    for (int column = 0; column < width; ++column) {
      const int x = column % 28 - 14, y = (row + column / 28 % 2 * 14) % 28 - 14;
      if (x * x + y * y < 81) picture.set(left + column, top + row, {120, 130, 90});
    }
  }
}

TEST(Motifs, AreOneClothWhereItsNeighboursAreAsNearAsTheyAre) {
  Picture picture(1200, 900, kTable);
  constexpr colour::Srgb kInks[] = {{90, 40, 60},  {40, 70, 110},  {60, 100, 70},  {150, 60, 40}, {},
                                    {70, 50, 120}, {170, 130, 30}, {30, 110, 120}, {50, 50, 55}};
  for (int place = 0; place < 9; ++place) {
    const int left = 180 + place % 3 * 280, top = 90 + place / 3 * 245;
    if (place == 4) {
      lay_dotted(picture, left, top, 252, 210);
    } else {
      fill(picture, left, top, 262 - 9 * place, 190 + 4 * place, kInks[place]);
    }
  }
  const Findings findings = find_cloths(picture);
  ASSERT_EQ(findings.cloths.size(), 9U);
  EXPECT_LT(farthest(findings.cloths[4].corners, {{{460, 335}, {712, 335}, {712, 545}, {460, 545}}}), 15);
}

Quad box(double left, double top, double width, double height) {
  return {{{left, top}, {left + width, top}, {left + width, top + height}, {left, top + height}}};
}

TEST(Motifs, AreNoRectanglesThatCoverNearlyAllSideBySide) {
  const Quad both = box(100, 100, 420, 200);
  EXPECT_TRUE(lie_side_by_side({box(100, 100, 200, 200), box(320, 105, 200, 190)}, both));
  EXPECT_FALSE(lie_side_by_side({box(100, 100, 140, 200), box(320, 105, 200, 190)}, both)) << "with much between them";
  EXPECT_FALSE(lie_side_by_side({box(100, 100, 200, 200), box(110, 105, 200, 190)}, both)) << "one twice";
  EXPECT_FALSE(lie_side_by_side({both}, both));
}

TEST(Motifs, SayWhereAClothOfTheUsualSizeLiesThatIsOutOfItsRow) {
  Picture picture(1400, 800, kTable);
  fill(picture, 100, 200, 300, 320, {90, 40, 60});
  fill(picture, 450, 200, 300, 320, {40, 70, 110});
  // As far from its neighbour as no row has it.
  for (int stripe = 0; stripe < 8; ++stripe) fill(picture, 825 + 40 * stripe, 228, 20, 320, {60, 100, 70});
  const Findings findings = find_cloths(picture);
  ASSERT_EQ(findings.cloths.size(), 3U);
  EXPECT_LT(farthest(findings.cloths[2].corners, {{{825, 228}, {1125, 228}, {1125, 548}, {825, 548}}}), 15);
}

TEST(Motifs, OnASheetThatIsKnownToLieThereAreNoCloths) {
  Picture picture(1200, 900, kTable);
  fill(picture, 100, 200, 400, 400, {90, 40, 60});
  fill(picture, 700, 200, 90, 90, {30, 30, 30});
  fill(picture, 900, 500, 90, 90, {30, 30, 30});
  EXPECT_EQ(find_cloths(picture).pieces.size(), 3U);
  const Findings findings = find_cloths(picture, {Corners{{{650, 150}, {1050, 150}, {1050, 700}, {650, 700}}}, {}});
  EXPECT_EQ(findings.pieces.size(), 1U);
  EXPECT_EQ(findings.cloths.size(), 1U);
}

}  // namespace
}  // namespace farflung::photo
