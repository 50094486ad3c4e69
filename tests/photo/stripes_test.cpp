#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "photo/find.hpp"

namespace farflung::photo {
namespace {

void fill(Picture& picture, int left, int top, int width, int height, colour::Srgb colour) {
  for (int row = top; row < top + height; ++row) {
    for (int column = left; column < left + width; ++column) picture.set(column, row, colour);
  }
}

double across(const Found& found) { return found.corners[1][0] - found.corners[0][0]; }

/// A table with two rows of cloths, and a print whose stripes are parted by the table's own colour.
Picture table_with_stripes() {
  Picture picture(1200, 800, {214, 204, 188});
  fill(picture, 120, 120, 220, 220, {90, 40, 60});
  fill(picture, 420, 120, 220, 220, {40, 70, 110});
  fill(picture, 720, 120, 220, 220, {50, 90, 60});
  fill(picture, 120, 420, 220, 220, {130, 90, 30});
  fill(picture, 420, 420, 220, 220, {70, 60, 120});
  for (int stripe = 0; stripe < 8; ++stripe) fill(picture, 720 + 28 * stripe, 420, 18, 220, {120, 60, 130});
  return picture;
}

TEST(Stripes, OfOnePrintDoNotSayWhatSizeTheClothsAre) {
  int squares = 0;
  for (const Found& found : find_cloths(table_with_stripes()).cloths) {
    const auto& c = found.corners;
    const double across = std::hypot(c[1][0] - c[0][0], c[1][1] - c[0][1]),
                 down = std::hypot(c[3][0] - c[0][0], c[3][1] - c[0][1]);
    EXPECT_GT(std::min(across, down), 150);
    squares += std::abs(across - 220) < 12 && std::abs(down - 220) < 6;
  }
  EXPECT_GE(squares, 5);
}

TEST(Stripes, BehindOneOfTheTablesColourAreOfTheSameCloth) {
  Picture picture(1200, 800, {214, 204, 188});
  fill(picture, 400, 200, 240, 400, {40, 50, 100}), fill(picture, 640, 200, 60, 400, {150, 70, 60});
  fill(picture, 724, 200, 36, 400, {40, 50, 100});
  const std::vector<Found> cloths = find_cloths(picture).cloths;
  ASSERT_EQ(cloths.size(), 1U);
  EXPECT_NEAR(across(cloths[0]), 360, 4);
}

TEST(Stripes, AreNotWhatThreeCutsOfOneClothInARowAre) {
  Picture picture(1200, 800, {214, 204, 188});
  for (const int left : {180, 470, 760}) fill(picture, left, 260, 270, 270, {40, 50, 100});
  const std::vector<Found> cloths = find_cloths(picture).cloths;
  ASSERT_EQ(cloths.size(), 3U);
  for (const Found& found : cloths) EXPECT_NEAR(across(found), 270, 4);
}

}  // namespace
}  // namespace farflung::photo
