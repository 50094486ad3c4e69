#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "photo/find.hpp"

namespace farflung::photo {
namespace {

/// A table with two rows of cloths, and a print whose stripes are parted by the table's own colour.
Picture table_with_stripes() {
  Picture picture(1200, 800, {214, 204, 188});
  const auto fill = [&](int left, int top, int width, int height, colour::Srgb colour) {
    for (int row = top; row < top + height; ++row) {
      for (int column = left; column < left + width; ++column) picture.set(column, row, colour);
    }
  };
  fill(120, 120, 220, 220, {90, 40, 60});
  fill(420, 120, 220, 220, {40, 70, 110});
  fill(720, 120, 220, 220, {50, 90, 60});
  fill(120, 420, 220, 220, {130, 90, 30});
  fill(420, 420, 220, 220, {70, 60, 120});
  for (int stripe = 0; stripe < 8; ++stripe) fill(720 + 28 * stripe, 420, 18, 220, {120, 60, 130});
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

}  // namespace
}  // namespace farflung::photo
