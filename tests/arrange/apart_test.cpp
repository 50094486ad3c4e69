#include "arrange/apart.hpp"

#include <algorithm>
#include <cstdlib>
#include <set>
#include <tuple>

#include <gtest/gtest.h>

#include "arrange/arrange.hpp"
#include "arrange/far_starts.hpp"
#include "arrange/held.hpp"
#include "arrange/restarts.hpp"
#include "score/measure.hpp"
#include "support/every_layout.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::arrange {
namespace {

bool always() { return true; }

/// A grid of squares of single prints, so many copies of each.
struct Grid {
  Grid(int rows, int columns_of_grid, const std::vector<int>& copies) : columns(columns_of_grid) {
    for (std::size_t p = 0; p < copies.size(); ++p) print.insert(print.end(), copies[p], static_cast<int>(p));
    const int n = rows * columns;
    model = score::spread_model(score::Kernel::table(n, std::vector<double>(static_cast<std::size_t>(n) * n)), print,
                                static_cast<int>(copies.size()));
    task.model = &model;
    task.freedom = free_to_move(model);
    for (int i = 0; i < n; ++i) held.push_back({i, 0});
  }

  /// The squared distance of two places as a rank: not every rank is a distance.
  int rank(int i, int j) const {
    const int down = i / columns - j / columns;
    const int across = i % columns - j % columns;
    return down * down + across * across;
  }

  ApartSearch search() const {
    return {task, [this](int i, int j) { return rank(i, j); }, 2 * static_cast<int>(held.size() * held.size())};
  }

  int furthest_of_all() const {
    std::vector<int> lies = print;
    int furthest = 0;
    do {
      int closest = 2 * static_cast<int>(held.size() * held.size());
      for (int i = 0; i < static_cast<int>(lies.size()); ++i) {
        for (int j = 0; j < i; ++j) {
          if (lies[i] == lies[j]) closest = std::min(closest, rank(i, j));
        }
      }
      furthest = std::max(furthest, closest);
    } while (std::next_permutation(lies.begin(), lies.end()));
    return furthest;
  }

  int columns;
  std::vector<int> print;
  score::Model model;
  Task task;
  std::vector<Held> held;
};

TEST(NearCopies, TellWhetherAnExchangeBringsCopiesTooNear) {
  const Grid grid(4, 5, {5, 5, 5, 5});
  const ApartSearch search = grid.search();
  Rng rng({1});
  int clear = 0, exchanges = 0;
  for (int layout = 0; layout < 20; ++layout) {
    const std::vector<Held> start = random_start(grid.task, grid.held, rng);
    const Apart apart = search.at_least(start, 3, 10'000, {1}, always);  // side by side and corner to corner are near
    ASSERT_GE(apart.rank, 3);
    NearCopies copies(nearer_than(20, 3, [&](int i, int j) { return grid.rank(i, j); }), 4);
    const auto prints = prints_of_blocks(grid.model);
    for (int i = 0; i < 20; ++i) copies.change(prints[apart.held[i].block], i, 1);
    for (int a = 0; a < 20; ++a) {
      for (int b = 0; b < a; ++b) {
        std::vector<Held> exchanged = apart.held;
        std::swap(exchanged[a], exchanged[b]);
        const bool stays = copies.stays_clear(prints[apart.held[a].block], a, prints[apart.held[b].block], b);
        EXPECT_EQ(stays, search.closest(exchanged) >= 3) << a << " and " << b;
        clear += stays ? 1 : 0;
        ++exchanges;
      }
    }
  }
  EXPECT_GT(clear, 100);
  EXPECT_LT(clear, exchanges / 2);
}

TEST(ApartSearch, ReachesTheFurthestOfAllLayoutsOfSmallGrids) {
  struct Case {
    int rows, columns;
    std::vector<int> copies;
  };
  const Case cases[] = {{3, 3, {3, 3, 3}}, {2, 5, {4, 2, 2, 2}}, {3, 4, {4, 4, 4}},       {3, 4, {6, 3, 3}},
                        {3, 4, {5, 4, 3}}, {4, 4, {12, 4}},      {3, 4, {3, 3, 2, 2, 2}}, {4, 4, {8, 4, 4}}};
  for (const Case& each : cases) {
    const Grid grid(each.rows, each.columns, each.copies);
    const int furthest = grid.furthest_of_all();
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
      Rng rng({seed});
      const Apart apart = grid.search().raised(random_start(grid.task, grid.held, rng), 20'000, {seed}, always);
      EXPECT_EQ(apart.rank, furthest) << each.rows << " x " << each.columns << " of " << each.copies.size();
      EXPECT_EQ(grid.search().closest(apart.held), apart.rank);
    }
  }
}

TEST(ApartSearch, FindsTheLatticeOfNinePrintsOnSixBySixFromAnyStart) {
  const Grid grid(6, 6, std::vector<int>(9, 4));
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    Rng rng({seed});
    const Apart apart = grid.search().raised(random_start(grid.task, grid.held, rng), 20'000, {seed}, always);
    EXPECT_EQ(apart.rank, 9) << "three steps along a line";
  }
}

TEST(ApartSearch, LeavesKeptPlacesAndTakesSparesIn) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = 5;
  wanted.prints = 7;
  wanted.patterns = {support::half_square(), support::uneven_rails()};
  wanted.alternate = true;
  wanted.spares = 4;
  wanted.kept = 3;
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const quilt::Quilt quilt = support::random_quilt({seed}, wanted);
    const score::Measure measure(quilt);
    const score::Model model = score::model_of(measure);
    const Task task{&model, freedom_of(quilt, measure, model, false), std::nullopt};
    const score::PlaceLattice lattice(measure.places());
    const ApartSearch search(
        task, [&](int i, int j) { return lattice.rank(i, j); }, lattice.ranks());
    const std::vector<Held> held = held_in(quilt, model);
    const Apart apart = search.raised(held, 2'000, {seed}, always);
    EXPECT_GE(apart.rank, search.closest(held));
    std::set<int> blocks;
    for (int i = 0; i < model.places; ++i) {
      blocks.insert(apart.held[i].block);
      const int pool = task.freedom.pool_of_place[i];
      if (pool == kNone) {
        EXPECT_EQ(apart.held[i], held[i]);
        continue;
      }
      const auto& own = task.freedom.pools[pool].blocks;
      EXPECT_NE(std::find(own.begin(), own.end(), apart.held[i].block), own.end());
      const auto& forms = task.freedom.forms[apart.held[i].block];
      EXPECT_NE(std::find(forms.begin(), forms.end(), apart.held[i].form), forms.end());
    }
    EXPECT_EQ(blocks.size(), apart.held.size()) << "each block once";
  }
}

TEST(ApartSearch, DoesNotLookForWhatKeptCopiesForbid) {
  Grid grid(6, 6, std::vector<int>(9, 4));
  const int side_by_side[] = {0, 1};  // of one print
  for (const int place : side_by_side) grid.task.freedom.pool_of_place[place] = quilt::kNone;
  Pool& pool = grid.task.freedom.pools[0];
  pool.places.erase(pool.places.begin(), pool.places.begin() + 2);
  pool.blocks.erase(pool.blocks.begin(), pool.blocks.begin() + 2);
  int asked = 0;
  const auto go_on = [&] { return ++asked > 0; };
  const Apart apart = grid.search().raised(grid.held, 1e9, {1}, go_on);
  EXPECT_EQ(apart.held, grid.held);
  EXPECT_EQ(apart.rank, 1);
  EXPECT_EQ(asked, 0);
}

quilt::Quilt even_squares(int side, int prints, Seed seed) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = side;
  wanted.prints = prints;
  wanted.dealt_evenly = true;
  quilt::Quilt quilt = support::random_quilt(seed, wanted);
  quilt.goals.closest = 1;
  return quilt;
}

TEST(Arrange, BringsTheClosestCopiesAsFarApartAsALattice) {
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    const auto report = arrange(even_squares(6, 9, {seed}), {.seed = {seed}, .effort = 0.05});
    ASSERT_TRUE(report.ok());
    EXPECT_NEAR(report->after.terms.closest, 3, 1e-9);
    EXPECT_EQ(report->after.terms.touches, 0);
  }
}

TEST(Arrange, FindsTheBestOfAllLayoutsWhoseCopiesLieTheFurthestApart) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    const quilt::Quilt quilt = even_squares(3, seed % 2 == 0 ? 4 : 3, {seed});
    const score::Measure measure(quilt);
    const auto order = [](const score::Score& s) { return std::tuple(s.terms.touches, -s.terms.closest, s.F); };
    const score::Score best = support::best_of_all_layouts(
        measure, [&](const score::Score& a, const score::Score& b) { return order(a) < order(b); });
    const auto report = arrange(quilt, {.seed = {seed}, .effort = 0.1});
    ASSERT_TRUE(report.ok());
    EXPECT_EQ(report->after.terms.closest, best.terms.closest) << "seed " << seed;
    EXPECT_NEAR(report->after.F, best.F, 1e-9) << "seed " << seed;
  }
}

TEST(Arrange, KeepsTheClosestCopiesApartAlikeOnAnyNumberOfThreads) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = 6;
  wanted.prints = 9;
  wanted.patterns = {support::half_square()};
  wanted.spares = 2;
  quilt::Quilt quilt = support::random_quilt({2}, wanted);
  quilt.goals.closest = 1;
  const auto one = arrange(quilt, {.seed = {3}, .effort = 0.02, .threads = 1});
  ASSERT_TRUE(one.ok());
  for (const int threads : {2, 4}) {
    const auto more = arrange(quilt, {.seed = {3}, .effort = 0.02, .threads = threads});
    ASSERT_TRUE(more.ok());
    EXPECT_EQ(one->quilt.layout, more->quilt.layout);
  }
}

TEST(Descend, ExchangesWholePrintsWhereNoCopyAloneCanMove) {
  const quilt::Quilt quilt = even_squares(6, 9, {1});
  const score::Measure measure(quilt);
  const score::Model model = score::model_of(measure);
  Task task{&model, freedom_of(quilt, measure, model, false), std::nullopt};
  const FarStarts starts(task, measure.places(), held_in(quilt, model), {2'000, 1, always}, {1});
  task.clearance = starts.clearance();
  Rng rng({1});
  const std::vector<Held> start = starts.cleared(random_start(task, held_in(quilt, model), rng), 0, {1}, always);
  const Found found = descend(task, start, {}, {1}, [](const Standing&) { return true; });
  const auto F = [&](const std::vector<Held>& held) { return score::Pricer(model, held, {}).F(); };
  EXPECT_LT(F(found.held), F(start) - 1e-6);
  setting::Arrangement layout = quilt.layout;
  lay(found.held, model, layout);
  EXPECT_NEAR(measure.terms(layout).closest, 3, 1e-9);
}

}  // namespace
}  // namespace farflung::arrange
