#include "arrange/restarts.hpp"

#include <algorithm>
#include <cstdlib>
#include <set>

#include <gtest/gtest.h>

#include "arrange/elites.hpp"
#include "arrange/held.hpp"
#include "arrange/one_print.hpp"
#include "arrange/periodic.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::arrange {
namespace {

/// 1 / squared distance on a grid whose edges meet, or on one that ends.
score::Kernel inverse_squares(int rows, int columns, bool torus) {
  std::vector<double> weights;
  for (int i = 0; i < rows * columns; ++i) {
    for (int j = 0; j < rows * columns; ++j) {
      int down = std::abs(i / columns - j / columns);
      int across = std::abs(i % columns - j % columns);
      if (torus) down = std::min(down, rows - down);
      if (torus) across = std::min(across, columns - across);
      weights.push_back(i == j ? 0 : 1.0 / (down * down + across * across));
    }
  }
  return score::Kernel::table(rows * columns, weights);
}

struct OnePrintGrid {
  OnePrintGrid(int rows, int columns, bool torus, int copies)
      : kernel(inverse_squares(rows, columns, torus)), print(rows * columns, quilt::kNone) {
    std::fill(print.begin(), print.begin() + copies, 0);
    model = score::spread_model(kernel, print, 1);
    task.model = &model;
    task.freedom = free_to_move(model);
    for (int i = 0; i < rows * columns; ++i) held.push_back({i, 0});
  }
  OnePrintGrid(const OnePrintGrid&) = delete;
  OnePrintGrid& operator=(const OnePrintGrid&) = delete;

  double F(const std::vector<Held>& layout) const { return score::Pricer(model, layout, {}).F(); }
  double least_of_all() const {
    std::vector<int> lies = print;
    std::sort(lies.begin(), lies.end());
    double least = 1e300;
    do {
      double sum = 0;
      for (int i = 0; i < model.places; ++i) {
        for (int j = 0; j < i; ++j) sum += lies[i] == 0 && lies[j] == 0 ? kernel.at(i, j) : 0;
      }
      least = std::min(least, sum);
    } while (std::next_permutation(lies.begin(), lies.end()));
    return least;
  }

  score::Kernel kernel;
  std::vector<int> print;
  score::Model model;
  Task task;
  std::vector<Held> held;
};

bool holds_every_block_once(const std::vector<Held>& layout, std::size_t blocks) {
  std::set<int> all;
  for (const Held& held : layout) all.insert(held.block);
  return all.size() == blocks && layout.size() == blocks;
}

TEST(Symmetry, ATorusCanBeShiftedAndABoundedGridOnlyMirrored) {
  EXPECT_EQ(symmetries_of(inverse_squares(4, 4, true), 4, 4).size(), 8u * 16);
  EXPECT_EQ(symmetries_of(inverse_squares(4, 6, true), 4, 6).size(), 4u * 24);
  EXPECT_EQ(symmetries_of(inverse_squares(4, 4, false), 4, 4).size(), 8u);
  EXPECT_EQ(symmetries_of(inverse_squares(3, 5, false), 3, 5).size(), 4u);
  EXPECT_EQ(symmetries_of(inverse_squares(1, 5, false), 1, 5).size(), 2u);
}

TEST(Symmetry, EveryMapLeavesEveryWeightAsItIs) {
  const score::Kernel kernel = inverse_squares(3, 4, true);
  for (const Symmetry& map : symmetries_of(kernel, 3, 4)) {
    EXPECT_EQ(std::set<int>(map.begin(), map.end()).size(), 12u);
    for (int i = 0; i < 12; ++i) {
      for (int j = 0; j < 12; ++j) EXPECT_EQ(kernel.at(map[i], map[j]), kernel.at(i, j));
    }
  }
}

TEST(OnePrint, ReachesTheBestOfAllLayoutsOfSmallGrids) {
  for (const bool torus : {false, true}) {
    for (int copies = 2; copies <= 8; ++copies) {
      const OnePrintGrid grid(4, 5, torus, copies);
      ASSERT_TRUE(is_one_print(grid.task));
      const std::vector<Held> found = OnePrint(grid.task).improved(grid.held, 200, {1}, [] { return true; });
      EXPECT_TRUE(holds_every_block_once(found, 20));
      EXPECT_NEAR(grid.F(found), grid.least_of_all(), 1e-9) << copies << " copies";
    }
  }
}

TEST(OnePrint, IsNotForQuiltsOfManyTerms) {
  const quilt::Quilt quilt = support::random_quilt({1}, {});
  const score::Measure measure(quilt);
  const score::Model model = score::model_of(measure);
  EXPECT_FALSE(is_one_print({&model, freedom_of(quilt, measure, model, false), std::nullopt}));
}

TEST(Restarts, AreTheSameForTheSameSeed) {
  const OnePrintGrid grid(6, 6, true, 11);
  const auto run = [&](Seed seed) {
    std::vector<Found> all;
    restarts(
        grid.task, {{}, symmetries_of(grid.kernel, 6, 6)}, seed,
        [&](const Found& found) {
          all.push_back(found);
          return all.size() < 40;
        },
        [] { return true; });
    return all;
  };
  const auto first = run({1});
  const auto again = run({1});
  ASSERT_EQ(first.size(), again.size());
  for (std::size_t k = 0; k < first.size(); ++k) EXPECT_EQ(first[k].held, again[k].held);
}

TEST(PeriodicStart, HoldsEveryBlockOnceAndRepeatsItselfWhereCopiesFillWholeOrbits) {
  const OnePrintGrid grid(6, 6, true, 12);
  const std::vector<Symmetry> symmetries = symmetries_of(grid.kernel, 6, 6);
  Rng rng({1});
  for (int k = 0; k < 30; ++k) {
    const std::vector<Held> by_lot = random_start(grid.task, grid.held, rng);
    const std::vector<Held> start = periodic_start(grid.task, symmetries, by_lot, rng, [] { return true; });
    EXPECT_TRUE(holds_every_block_once(start, 36));
    const auto full = [&](int place) { return grid.print[start[place].block] != quilt::kNone; };
    const bool repeats = std::any_of(symmetries.begin() + 1, symmetries.end(), [&](const Symmetry& map) {
      for (int i = 0; i < 36; ++i) {
        if (full(i) != full(map[i])) return false;
      }
      return map != symmetries.front();
    });
    EXPECT_TRUE(repeats) << "start " << k;
  }
}

TEST(PeriodicStart, IsByLotWhereNothingRepeatsItself) {
  const OnePrintGrid grid(4, 5, true, 7);
  Rng rng({1});
  EXPECT_EQ(periodic_start(grid.task, {identity(20)}, grid.held, rng, [] { return true; }), grid.held);
}

TEST(Elites, KeepTheBestOfThoseThatDiffer) {
  const OnePrintGrid grid(4, 5, true, 4);
  const std::vector<Symmetry> symmetries = symmetries_of(grid.kernel, 4, 5);
  Elites elites(grid.task, symmetries, 2);
  EXPECT_TRUE(elites.take(grid.held, 3));
  EXPECT_FALSE(elites.take(grid.held, 3)) << "the same value is the same layout";
  EXPECT_TRUE(elites.take(grid.held, 5));
  EXPECT_TRUE(elites.full());
  EXPECT_FALSE(elites.take(grid.held, 6));
  EXPECT_TRUE(elites.take(grid.held, 2));
  EXPECT_EQ(elites.best_F(), 2);
}

TEST(Elites, ACrossingOfALayoutWithItsMirrorImageKeepsWhatTheyShare) {
  const OnePrintGrid grid(5, 5, true, 5);
  const std::vector<Symmetry> symmetries = symmetries_of(grid.kernel, 5, 5);
  Elites elites(grid.task, symmetries, 2);
  std::vector<Held> shifted = grid.held;  // the first row full; now the second, but for one copy
  std::rotate(shifted.begin(), shifted.end() - 5, shifted.end());
  std::swap(shifted[9], shifted[14]);
  elites.take(grid.held, 1);
  elites.take(shifted, 2);
  Rng rng({1});
  for (int k = 0; k < 20; ++k) {
    const std::vector<Held> crossed = elites.crossed(rng);
    EXPECT_TRUE(holds_every_block_once(crossed, 25));
    int in_row = 0;  // four of the five stay in one row or column
    for (int line = 0; line < 5; ++line) {
      int row = 0, column = 0;
      for (int i = 0; i < 5; ++i) row += grid.print[crossed[5 * line + i].block] == 0 ? 1 : 0;
      for (int i = 0; i < 5; ++i) column += grid.print[crossed[5 * i + line].block] == 0 ? 1 : 0;
      in_row = std::max({in_row, row, column});
    }
    EXPECT_GE(in_row, 4);
  }
}

TEST(Elites, CrossingsOfQuiltsKeepWhatIsKeptAndTakeNoTurnThatIsNotAllowed) {
  support::Wanted wanted;
  wanted.patterns = {support::half_square(), support::uneven_rails()};
  wanted.alternate = true;
  wanted.spares = 3;
  wanted.kept = 4;
  const quilt::Quilt quilt = support::random_quilt({3}, wanted);
  const score::Measure measure(quilt);
  const score::Model model = score::model_of(measure);
  const Task task{&model, freedom_of(quilt, measure, model, false), std::nullopt};
  Symmetry identity;
  for (int i = 0; i < model.places; ++i) identity.push_back(i);
  const std::vector<Symmetry> symmetries = {identity};
  const std::vector<Held> held = held_in(quilt, model);
  Rng rng({1});
  Elites elites(task, symmetries, 4);
  for (int k = 0; k < 4; ++k) elites.take(random_start(task, held, rng), k);
  for (int k = 0; k < 50; ++k) {
    const std::vector<Held> crossed = elites.crossed(rng);
    std::set<int> blocks;
    for (int i = 0; i < model.places; ++i) {
      blocks.insert(crossed[i].block);
      const int pool = task.freedom.pool_of_place[i];
      if (pool == kNone) {
        EXPECT_EQ(crossed[i], held[i]);
        continue;
      }
      const auto& own = task.freedom.pools[pool].blocks;
      EXPECT_NE(std::find(own.begin(), own.end(), crossed[i].block), own.end());
      const auto& forms = task.freedom.forms[crossed[i].block];
      EXPECT_NE(std::find(forms.begin(), forms.end(), crossed[i].form), forms.end());
    }
    EXPECT_EQ(blocks.size(), crossed.size());
  }
}

}  // namespace
}  // namespace farflung::arrange
