#include "photo/corner_cards.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace farflung::photo {
namespace {

/// A bare wall, `pixels` to the inch, 40 x 30 inches of it, with cards about a rectangle that `inset` inches of wall
/// surround.
struct BareWall {
  double pixels = 20, inset = 6;
  Picture picture{static_cast<int>(40 * pixels), static_cast<int>(30 * pixels), {225, 222, 215}};

  std::array<double, 2> corner(int k) const {
    return {k == 1 || k == 2 ? 40 - inset : inset, k >= 2 ? 30 - inset : inset};
  }

  void fill(double left, double top, double width, double height, colour::Srgb colour) {
    for (int y = static_cast<int>(std::lround(top * pixels)); y < std::lround((top + height) * pixels); ++y) {
      for (int x = static_cast<int>(std::lround(left * pixels)); x < std::lround((left + width) * pixels); ++x) {
        picture.set(x, y, colour);
      }
    }
  }

  /// The card `which` at corner `at`.
  void pin(int which, int at) {
    const CornerCard& card = corner_cards()[static_cast<std::size_t>(which)];
    const double x = corner(at)[0] + card.left, y = corner(at)[1] + card.top;
    const double side = kCornerMark + 2 * kCornerWhite, cell = kCornerMark / static_cast<double>(card.black.size());
    fill(x - kCornerWhite, y - kCornerWhite, side, side, {250, 250, 250});
    for (std::size_t row = 0; row < card.black.size(); ++row) {
      for (std::size_t column = 0; column < card.black.size(); ++column) {
        if (!card.black[row][column]) continue;
        fill(x + static_cast<double>(column) * cell, y + static_cast<double>(row) * cell, cell, cell, {20, 20, 20});
      }
    }
  }
};

Picture on_its_side(const Picture& upright) {
  Picture turned(upright.rows, upright.columns, {});
  for (int y = 0; y < upright.rows; ++y) {
    for (int x = 0; x < upright.columns; ++x) turned.set(upright.rows - 1 - y, x, upright.at(x, y));
  }
  return turned;
}

TEST(CornerCards, SayWhereTheCornersAre) {
  BareWall wall;
  for (int k = 0; k < 4; ++k) wall.pin(k, k);
  const auto cards = find_corner_cards(wall.picture);
  for (int k = 0; k < 4; ++k) {
    ASSERT_TRUE(cards[k]) << "corner " << k;
    EXPECT_NEAR(cards[k]->tip[0], wall.corner(k)[0] * wall.pixels, 0.05 * wall.pixels);
    EXPECT_NEAR(cards[k]->tip[1], wall.corner(k)[1] * wall.pixels, 0.05 * wall.pixels);
  }
}

TEST(CornerCards, KnowAPhotographOnItsSide) {
  BareWall wall;
  for (int k = 0; k < 4; ++k) wall.pin(k, k);
  const Picture turned = on_its_side(wall.picture);
  const auto cards = find_corner_cards(turned);
  ASSERT_TRUE(cards[0]);
  // What was above is now to the right.
  EXPECT_GT(cards[0]->tip[0], 0.5 * turned.columns);
  EXPECT_LT(cards[0]->tip[1], 0.5 * turned.rows);
}

TEST(CornerCards, ThreeAreEnoughAndTheFourthIsSaidToBeMissing) {
  BareWall wall;
  for (const int k : {0, 1, 3}) wall.pin(k, k);
  const auto cards = find_corner_cards(wall.picture);
  EXPECT_TRUE(cards[0] && cards[1] && cards[3]);
  EXPECT_FALSE(cards[2]);
}

TEST(CornerCards, PinnedAtTheWrongCornersTheySayNothing) {
  BareWall wall;
  wall.pin(0, 1), wall.pin(1, 0), wall.pin(2, 2), wall.pin(3, 3);
  for (const auto& card : find_corner_cards(wall.picture)) EXPECT_FALSE(card);
}

TEST(CornerCards, AWallWithoutCardsHasNone) {
  for (const auto& card : find_corner_cards(BareWall().picture)) EXPECT_FALSE(card);
}

}  // namespace
}  // namespace farflung::photo
