#include "score/press_choice.hpp"

#include <algorithm>
#include <utility>

#include <gtest/gtest.h>

#include "base/rng.hpp"

namespace farflung::score {
namespace {

using Wishes = std::vector<PressWish>;
using Pressed = std::vector<std::optional<bool>>;

int any_of(Rng& rng, int count) { return static_cast<int>(rng.below(static_cast<std::uint32_t>(count))); }

Wishes random_wishes(Rng& rng, int blocks, int count) {
  Wishes wishes;
  while (static_cast<int>(wishes.size()) < count) {
    const int a = any_of(rng, blocks);
    const int b = any_of(rng, blocks);
    if (a != b) wishes.push_back({a, b, rng.below(2) == 0});
  }
  return wishes;
}

/// Each of the blocks pressed already with a chance of one in `of`.
Pressed some_pressed(Rng& rng, int blocks, std::uint32_t of) {
  Pressed pressed(blocks);
  for (auto& each : pressed) {
    if (rng.below(of) == 0) each = rng.below(2) == 0;
  }
  return pressed;
}

bool is_met(const PressWish& wish, const std::vector<bool>& other) {
  return (other[wish.a] != other[wish.b]) == wish.differ;
}

int unmet(const Wishes& wishes, const std::vector<bool>& other) {
  return static_cast<int>(
      std::count_if(wishes.begin(), wishes.end(), [&](auto& wish) { return !is_met(wish, other); }));
}

/// Of all ways to press: the fewest wishes unmet, and then the fewest pressed blocks that change. `again`: those may.
std::pair<int, int> least(const Wishes& wishes, const Pressed& pressed, bool again) {
  std::pair<int, int> least{1000, 0};
  for (unsigned ways = 0; ways < (1u << pressed.size()); ++ways) {
    std::vector<bool> other;
    int changes = 0;
    for (std::size_t b = 0; b < pressed.size(); ++b) {
      other.push_back((ways >> b & 1) != 0);
      changes += pressed[b] && *pressed[b] != other[b] ? 1 : 0;
    }
    if (changes == 0 || again) least = std::min(least, {unmet(wishes, other), changes});
  }
  return least;
}

TEST(PressChoice, IsTheBestOfAllWaysToPress) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng({seed});
    const int blocks = 4 + any_of(rng, 7);
    const Pressed pressed = some_pressed(rng, blocks, 4);
    const Wishes wishes = random_wishes(rng, blocks, 2 * blocks);
    const PressChoice choice = choose_press(wishes, pressed);
    for (int b = 0; b < blocks; ++b) EXPECT_TRUE(!pressed[b] || choice.other[b] == *pressed[b]);
    EXPECT_TRUE(choice.exact);
    EXPECT_EQ(unmet(wishes, choice.other), least(wishes, pressed, false).first);
    EXPECT_EQ(press_unpressed(wishes, pressed), choice.other);
  }
}

TEST(PressChoice, PressesAgainAsFewBlocksAsLetAsManyWishesBeMetAsIfNoneWerePressed) {
  int mended = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng({seed});
    const int blocks = 9;
    const Pressed pressed = some_pressed(rng, blocks, 2);
    const Wishes wishes = random_wishes(rng, blocks, 11);
    const PressChoice choice = choose_press(wishes, pressed);
    const auto [fewest, changes] = least(wishes, pressed, true);
    EXPECT_EQ(choice.unmet_then, fewest);
    EXPECT_EQ(static_cast<int>(choice.press_again.size()), changes);
    for (const int block : choice.press_again) EXPECT_TRUE(pressed[block]) << "only what is pressed is pressed again";
    mended += changes > 0 ? 1 : 0;
  }
  EXPECT_GT(mended, 50);
}

TEST(PressChoice, NamesEachUnmetWishByAnOddRing) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng({seed});
    const Wishes wishes = random_wishes(rng, 9, 20);
    const PressChoice choice = choose_press(wishes, Pressed(9));
    EXPECT_EQ(static_cast<int>(choice.odd_rings.size()), unmet(wishes, choice.other)) << "nothing pressed holds any";
    for (const std::vector<int>& ring : choice.odd_rings) {
      for (std::size_t k = 0; k < ring.size(); ++k) {
        const int here = ring[k];
        const int next = ring[(k + 1) % ring.size()];
        const bool closes = k + 1 == ring.size();
        EXPECT_TRUE(std::any_of(wishes.begin(), wishes.end(), [&](const PressWish& wish) {
          return std::minmax(wish.a, wish.b) == std::minmax(here, next) && is_met(wish, choice.other) != closes;
        })) << "all are met but the one that closes the ring";
      }
    }
  }
}

/// A grid of blocks whose joins wish for what `truth` meets, but for one in `noise`.
Wishes grid_of(Rng& rng, int rows, int columns, std::uint32_t noise, int& spoilt) {
  std::vector<bool> truth;
  for (int b = 0; b < rows * columns; ++b) truth.push_back(rng.below(2) == 0);
  Wishes wishes;
  spoilt = 0;
  const auto join = [&](int a, int b) {
    const bool spoils = rng.below(noise) == 0;
    spoilt += spoils ? 1 : 0;
    wishes.push_back({a, b, (truth[a] != truth[b]) != spoils});
  };
  for (int b = 0; b < rows * columns; ++b) {
    if (b % columns + 1 < columns) join(b, b + 1);
    if (b + columns < rows * columns) join(b, b + columns);
  }
  return wishes;
}

TEST(PressChoice, IsExactForTopsOfSixteenBlocksAbreast) {
  Rng rng({4});
  int spoilt = 0;
  const Wishes wishes = grid_of(rng, 15, 12, 8, spoilt);
  const PressChoice choice = choose_press(wishes, Pressed(15 * 12));
  EXPECT_TRUE(choice.exact);
  EXPECT_LE(unmet(wishes, choice.other), spoilt);
  EXPECT_GT(unmet(wishes, choice.other), 0);
}

TEST(PressChoice, FindsWhatIsHiddenInTopsThatAreWider) {
  for (std::uint64_t seed = 1; seed <= 2; ++seed) {
    Rng rng({seed});
    int spoilt = 0;
    const Wishes wishes = grid_of(rng, 22, 24, 12, spoilt);
    const PressChoice choice = choose_press(wishes, Pressed(22 * 24));
    EXPECT_FALSE(choice.exact);
    EXPECT_LE(unmet(wishes, choice.other), spoilt) << "seed " << seed;
  }
}

}  // namespace
}  // namespace farflung::score
