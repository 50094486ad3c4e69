// Layouts held against a replay of their cuts that shares no code with the search, and against published instances.
#include "cloth/guillotine.hpp"

#include <algorithm>
#include <list>

#include <gtest/gtest.h>

#include "base/rng.hpp"
#include "cloth/published_cuts.hpp"

namespace farflung::cloth {
namespace {

/// Cuts real pieces of "cloth" (every unit square marked) and reports what is wrong, "" where all is well.
std::string wrong_with(int width, int height, const std::vector<Wanted>& wanted, const Layout& layout) {
  std::list<Rect> pieces = {{0, 0, width, height}};
  for (const Cut& cut : layout.cuts) {
    auto on = std::find(pieces.begin(), pieces.end(), cut.of);
    if (on == pieces.end()) return "a cut through what does not lie there";
    const Rect whole = *on;
    pieces.erase(on);
    if (cut.upright) {
      if (cut.at <= whole.x || cut.at >= whole.x + whole.width) return "a cut beside the piece";
      pieces.push_back({whole.x, whole.y, cut.at - whole.x, whole.height});
      pieces.push_back({cut.at, whole.y, whole.x + whole.width - cut.at, whole.height});
    } else {
      if (cut.at <= whole.y || cut.at >= whole.y + whole.height) return "a cut beside the piece";
      pieces.push_back({whole.x, whole.y, whole.width, cut.at - whole.y});
      pieces.push_back({whole.x, cut.at, whole.width, whole.y + whole.height - cut.at});
    }
  }
  std::vector<int> counts(wanted.size(), 0);
  std::int64_t value = 0;
  for (const Placed& placed : layout.placed) {
    auto piece = std::find(pieces.begin(), pieces.end(), placed.rect);
    if (piece == pieces.end()) return "a piece that was not cut out";
    pieces.erase(piece);
    const Wanted& item = wanted[placed.wanted];
    if (placed.turned && !item.turnable) return "a piece on its side that must stand";
    const int w = placed.turned ? item.height : item.width;
    const int h = placed.turned ? item.width : item.height;
    if (placed.rect.width != w || placed.rect.height != h) return "a piece of another size";
    if (++counts[placed.wanted] > item.count) return "more than was wanted";
    value += item.value > 0 ? item.value : static_cast<std::int64_t>(w) * h;
  }
  if (value != layout.value) return "another value";
  if (pieces.size() != layout.left.size()) return "leftovers that are not listed";
  for (const Rect& rect : layout.left) {
    if (std::find(pieces.begin(), pieces.end(), rect) == pieces.end()) return "a leftover that is not there";
  }
  // No two pieces overlap and none leaves the cloth, square by square.
  std::vector<int> cover(static_cast<std::size_t>(width) * height, 0);
  for (const Placed& placed : layout.placed) {
    for (int y = placed.rect.y; y < placed.rect.y + placed.rect.height; ++y) {
      for (int x = placed.rect.x; x < placed.rect.x + placed.rect.width; ++x) {
        if (x < 0 || y < 0 || x >= width || y >= height) return "a piece leaves the cloth";
        if (++cover[static_cast<std::size_t>(y) * width + x] > 1) return "two pieces overlap";
      }
    }
  }
  return replays(width, height, wanted, layout) ? "" : "the library's own replay disagrees";
}

std::vector<Wanted> random_wanted(Rng& chance, int kinds, int most) {
  std::vector<Wanted> wanted;
  for (int i = 0; i < kinds; ++i) {
    wanted.push_back({static_cast<int>(4 + chance.below(30)), static_cast<int>(4 + chance.below(30)),
                      static_cast<int>(1 + chance.below(most)), chance.below(3) > 0, 0});
  }
  return wanted;
}

TEST(Guillotine, EveryPlanCanBeCutAsItSays) {
  Rng chance(Seed{11});
  for (int i = 0; i < 120; ++i) {
    const std::vector<Wanted> wanted = random_wanted(chance, 1 + i % 5, 1 + i % 7);
    const int width = static_cast<int>(30 + chance.below(60));
    const int height = static_cast<int>(30 + chance.below(60));
    const Layout layout = best_layout(width, height, wanted, {.exact = 200'000, .grid = 300'000});
    ASSERT_EQ(wrong_with(width, height, wanted, layout), "") << i;
    const Sheets sheets = fewest_sheets(width, height, wanted, 4, {.exact = 100'000, .grid = 100'000});
    std::vector<int> counts = sheets.missing;
    for (const Layout& one : sheets.layouts) {
      ASSERT_EQ(wrong_with(width, height, wanted, one), "") << i;
      for (const Placed& placed : one.placed) ++counts[placed.wanted];
    }
    for (std::size_t w = 0; w < wanted.size(); ++w) EXPECT_EQ(counts[w], wanted[w].count) << i;
  }
}

TEST(Guillotine, EveryYardageCanBeCutAsItSays) {
  Rng chance(Seed{12});
  for (int i = 0; i < 40; ++i) {
    const std::vector<Wanted> wanted = random_wanted(chance, 1 + i % 4, 12);
    const Layout layout = least_length(90, wanted, {.exact = 100'000});
    int length = 0;
    for (const Placed& placed : layout.placed) length = std::max(length, placed.rect.y + placed.rect.height);
    Layout cut = best_layout(90, length, wanted, {.strips_only = true});
    EXPECT_EQ(wrong_with(90, length, wanted, cut), "");
    for (const Wanted& item : wanted) EXPECT_LE(std::min(item.width, item.height), 90);
    EXPECT_EQ(layout.counts(wanted.size()), [&] {
      std::vector<int> counts;
      for (const Wanted& item : wanted) counts.push_back(item.count);
      return counts;
    }());
  }
}

/// The least height of a guillotine box of exactly these pieces no wider than `width`, by trying every first split:
/// exponential, for five pieces or so.
int least_height(int width, const std::vector<std::pair<int, int>>& pieces, unsigned mask,
                 std::vector<std::vector<int>>& known) {
  if (known[mask][width] != 0) return known[mask][width];
  int best = 1'000'000;
  if ((mask & (mask - 1)) == 0) {
    int i = 0;
    while (!((mask >> i) & 1U)) ++i;
    if (pieces[i].first <= width) best = std::min(best, pieces[i].second);
    if (pieces[i].second <= width) best = std::min(best, pieces[i].first);
  } else {
    for (unsigned part = (mask - 1) & mask; part > 0; part = (part - 1) & mask) {
      best = std::min(best, least_height(width, pieces, part, known) + least_height(width, pieces, mask ^ part, known));
      for (int left = 1; left < width; ++left) {
        best = std::min(best, std::max(least_height(left, pieces, part, known),
                                       least_height(width - left, pieces, mask ^ part, known)));
      }
    }
  }
  known[mask][width] = best;
  return best;
}

TEST(Guillotine, SmallSetsAreProvenAgainstExhaustion) {
  Rng chance(Seed{13});
  for (int i = 0; i < 60; ++i) {
    std::vector<Wanted> wanted;
    std::vector<std::pair<int, int>> pieces;
    for (int p = 0; p < 5; ++p) {
      const int w = static_cast<int>(2 + chance.below(7));
      const int h = static_cast<int>(2 + chance.below(7));
      wanted.push_back({w, h, 1, true, 0});
      pieces.emplace_back(w, h);
    }
    const int width = 9;
    std::vector<std::vector<int>> known(32, std::vector<int>(width + 1, 0));
    const int least = least_height(width, pieces, 31, known);
    const Layout fits = best_layout(width, least, wanted);
    EXPECT_TRUE(fits.best);
    EXPECT_EQ(fits.placed.size(), 5U) << "it fits, exhaustion says";
    const Layout tight = best_layout(width, least - 1, wanted);
    EXPECT_TRUE(tight.best);
    EXPECT_LT(tight.placed.size(), 5U) << "it cannot fit";
  }
}

TEST(Guillotine, NothingIsSaidToFitThatDoesNot) {
  // A square of 20 is not cut from 19 x 400, and five of 10 x 10 not from 20 x 20.
  EXPECT_TRUE(best_layout(19, 400, {{20, 20, 1, true, 0}}).placed.empty());
  EXPECT_EQ(best_layout(20, 20, {{10, 10, 5, true, 0}}).placed.size(), 4U);
}

TEST(Guillotine, PublishedInstancesAreReached) {
  const std::vector<PublishedCut> instances = published_cuts(FARFLUNG_SOURCE);
  ASSERT_EQ(instances.size(), 7U);
  for (const PublishedCut& one : instances) {
    const Layout layout = best_layout(one.width, one.height, one.wanted);
    EXPECT_EQ(wrong_with(one.width, one.height, one.wanted, layout), "") << one.name;
    EXPECT_LE(layout.value, one.best_known) << one.name;
    EXPECT_GE(static_cast<double>(layout.value), 0.97 * static_cast<double>(one.best_known)) << one.name;
  }
}

}  // namespace
}  // namespace farflung::cloth
