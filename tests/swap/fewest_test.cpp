#include "swap/fewest.hpp"

#include <map>
#include <numeric>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/patterns.hpp"
#include "support/random_quilt.hpp"
#include "support/worlds.hpp"
#include "swap/cycles.hpp"
#include "swap/errands.hpp"

namespace farflung::swap {
namespace {

using setting::Arrangement;

quilt::Quilt row_of_squares(Seed seed, int columns, int prints) {
  support::Wanted wanted;
  wanted.rows = 1;
  wanted.columns = columns;
  wanted.prints = prints;
  return support::random_quilt(seed, wanted);
}

Arrangement shuffled(const quilt::Quilt& quilt, Seed seed) {
  Rng rng(seed);
  Arrangement to = quilt.layout;
  const setting::Plan plan = quilt::plan_of(quilt);
  std::map<int, std::vector<int>> pools;
  for (std::size_t c = 0; c < to.block.size(); ++c) {
    if (to.block[c] != kNone && !to.kept[c]) pools[plan.cells[c].pattern].push_back(static_cast<int>(c));
  }
  for (const auto& [pattern, cells] : pools) {
    std::vector<int> blocks;
    for (const int cell : cells) blocks.push_back(to.block[cell]);
    rng.shuffle(std::span<int>(blocks));
    for (std::size_t k = 0; k < cells.size(); ++k) {
      to.block[cells[k]] = blocks[k];
      const std::vector<Turn> turns = quilt::turns_of(quilt, quilt.blocks[blocks[k]]);
      to.turn[cells[k]] = turns[rng.below(static_cast<std::uint32_t>(turns.size()))];
    }
  }
  return to;
}

/// The kinds in the cells, as far as anyone can see.
std::vector<int> seen(const Arrangement& layout, const std::vector<int>& kinds) {
  std::vector<int> result;
  for (const int block : layout.block) result.push_back(block == kNone ? kNone : kinds[block]);
  return result;
}

/// Fewest swaps by breadth first over everything that can be seen; turns aside.
int fewest_by_trying(std::vector<int> from, const std::vector<int>& to) {
  std::map<std::vector<int>, int> reached = {{from, 0}};
  std::vector<std::vector<int>> front = {from};
  for (std::size_t k = 0; k < front.size(); ++k) {
    const std::vector<int> here = front[k];
    if (here == to) return reached[here];
    for (std::size_t i = 0; i < here.size(); ++i) {
      for (std::size_t j = i + 1; j < here.size(); ++j) {
        std::vector<int> next = here;
        std::swap(next[i], next[j]);
        if (reached.try_emplace(next, reached[here] + 1).second) front.push_back(next);
      }
    }
  }
  return -1;
}

TEST(FewestSwaps, OfUpToEightBlocksAreAsFewAsTryingEverythingFinds) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const int columns = 4 + static_cast<int>(seed % 5);
    const quilt::Quilt quilt = row_of_squares(Seed{seed}, columns, 3 + static_cast<int>(seed % 2));
    const Arrangement to = shuffled(quilt, Seed{seed + 100});
    const std::vector<int> kinds = make_ups(quilt);
    const auto way = fewest_swaps(quilt, to);
    ASSERT_TRUE(way.ok());
    EXPECT_TRUE(way->proven);
    EXPECT_EQ(way->swaps, fewest_by_trying(seen(quilt.layout, kinds), seen(to, kinds))) << "seed " << seed;
  }
}

TEST(FewestSwaps, ArriveByValidLayoutsOnlyAndNeverTakeMoreThanThePlainSwaps) {
  for (const support::World& world : support::worlds()) {
    support::Wanted wanted = world.wanted;
    wanted.kept = 2;
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
      const quilt::Quilt quilt = support::random_quilt(Seed{seed}, wanted);
      const Arrangement to = shuffled(quilt, Seed{seed + 7});
      const auto way = fewest_swaps(quilt, to);
      ASSERT_TRUE(way.ok()) << world.name;
      EXPECT_LE(way->swaps, way->plain_swaps);
      EXPECT_TRUE(way->proven);
      quilt::Quilt changed = quilt;
      for (const Step& step : way->steps) {
        make(step, changed.layout);
        EXPECT_THAT(problems_of(changed), testing::IsEmpty()) << world.name;
        EXPECT_FALSE(quilt.layout.kept[step.a] || quilt.layout.kept[step.b]);
      }
      const std::vector<int> kinds = make_ups(quilt);
      EXPECT_EQ(seen(changed.layout, kinds), seen(to, kinds));
      EXPECT_EQ(changed.layout.turn, to.turn);
    }
  }
}

TEST(FewestSwaps, OfSixtyBlocksOfTwentyPrintsAreProven) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    support::Wanted wanted;
    wanted.rows = 6;
    wanted.columns = 10;
    wanted.prints = 20;
    wanted.dealt_evenly = true;
    const quilt::Quilt quilt = support::random_quilt(Seed{seed}, wanted);
    const auto way = fewest_swaps(quilt, shuffled(quilt, Seed{seed + 50}));
    ASSERT_TRUE(way.ok());
    EXPECT_TRUE(way->proven);
    EXPECT_LT(way->swaps, way->plain_swaps);
  }
}

TEST(FewestSwaps, ABlockThatOnlyTurnsIsNoSwap) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = 3;
  wanted.patterns = {support::half_square()};
  const quilt::Quilt quilt = support::random_quilt(Seed{2}, wanted);
  Arrangement to = quilt.layout;
  to.turn[4] = to.turn[4] + Turn::quarters(1);
  const auto way = fewest_swaps(quilt, to);
  ASSERT_TRUE(way.ok());
  EXPECT_EQ(way->swaps, 0);
  EXPECT_EQ(way->turns, 1);
  EXPECT_EQ(way->steps, std::vector<Step>({{4, 4, to.turn[4], to.turn[4]}}));
}

TEST(FewestSwaps, RefuseToMoveWhatIsKeptAndSayWhere) {
  quilt::Quilt quilt = row_of_squares(Seed{3}, 3, 3);
  for (int b = 0; b < 3; ++b) quilt.blocks[b].prints = {b};
  quilt.layout.kept[1] = true;
  Arrangement to = quilt.layout;
  std::swap(to.block[0], to.block[1]);
  const auto way = fewest_swaps(quilt, to);
  ASSERT_FALSE(way.ok());
  EXPECT_EQ(way.problems().front().at, "/layout/cells/0/1");
}

TEST(FewestSwaps, NameABlockThatIsNotOnTheWall) {
  support::Wanted wanted;
  wanted.rows = 1;
  wanted.columns = 3;
  wanted.spares = 1;
  quilt::Quilt quilt = support::random_quilt(Seed{3}, wanted);
  for (int b = 0; b < 4; ++b) quilt.blocks[b].prints = {b};
  Arrangement to = quilt.layout;
  to.block[2] = 3;
  const auto way = fewest_swaps(quilt, to);
  ASSERT_FALSE(way.ok());
  EXPECT_THAT(way.problems().front().cause, testing::HasSubstr("B004"));
}

TEST(Walk, NoOrderOfSixSwapsIsShorter) {
  const quilt::Quilt quilt = row_of_squares(Seed{1}, 24, 3);
  const Distances distance(quilt::plan_of(quilt));
  Rng rng(Seed{9});
  std::vector<int> cells(24);
  std::iota(cells.begin(), cells.end(), 0);
  rng.shuffle(std::span<int>(cells));
  std::vector<Trip> trips;
  for (int k = 0; k < 6; ++k) trips.push_back({cells[2 * k], cells[2 * k + 1]});
  const double ours = walk(shortest_walk(trips, distance, Seed{1}), distance);
  std::vector<int> order = {0, 1, 2, 3, 4, 5};
  double least = 1e9;
  do {
    std::vector<Trip> tried;
    for (const int k : order) tried.push_back(trips[k]);
    least = std::min(least, walk(tried, distance));
  } while (std::next_permutation(order.begin(), order.end()));
  EXPECT_NEAR(ours, least, 1e-9);
}

TEST(Walk, ARoundIsSettledByTheSwapsWithTheShortestWays) {
  // Four cells in a row, a round that visits them as 0, 2, 1, 3: of the twelve sets of three swaps that do not cross,
  // the shortest is found by trying all sets of three.
  const quilt::Quilt quilt = row_of_squares(Seed{1}, 4, 3);
  const Distances distance(quilt::plan_of(quilt));
  const Round round = {0, 2, 1, 3};
  double ours = 0;
  for (const Trip& trip : trips_of(round, distance)) ours += distance(trip.a, trip.b);
  double least = 1e9;
  std::vector<Trip> all;
  for (int a = 0; a < 4; ++a) {
    for (int b = a + 1; b < 4; ++b) all.push_back({a, b});
  }
  for (const Trip& x : all) {
    for (const Trip& y : all) {
      for (const Trip& z : all) {
        std::vector<int> holds = {0, 1, 2, 3};
        for (const Trip& trip : {x, y, z}) std::swap(holds[trip.a], holds[trip.b]);
        bool settled = true;
        for (int k = 0; k < 4; ++k) settled &= holds[round[(k + 1) % 4]] == round[k];
        if (settled) least = std::min(least, distance(x.a, x.b) + distance(y.a, y.b) + distance(z.a, z.b));
      }
    }
  }
  EXPECT_NEAR(ours, least, 1e-9);
}

}  // namespace
}  // namespace farflung::swap
