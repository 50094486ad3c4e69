#include "arrange/tempering.hpp"

#include <algorithm>
#include <atomic>
#include <vector>

#include <gtest/gtest.h>

#include "arrange/held.hpp"
#include "arrange/run_all.hpp"
#include "score/measure.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::arrange {
namespace {

constexpr int kLayouts = 6;

/// A quilt ready to be laid from starts by lot.
struct Bench {
  explicit Bench(const support::Wanted& wanted)
      : quilt(support::random_quilt({2}, wanted)), measure(quilt), model(score::model_of(measure)) {
    task.model = &model;
    task.freedom = freedom_of(quilt, measure, model, false);
    const std::vector<Held> held = held_in(quilt, model);
    Rng rng({3});
    for (int k = 0; k < kLayouts; ++k) starts.push_back(random_start(task, held, rng));
    heat = sample_heat(task, starts.front(), {4});
  }
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  std::vector<Found> tempered(std::int64_t proposals, Seed seed, int threads = 0) const {
    const std::vector<Watch> watches(kLayouts, [](const Standing&) { return true; });
    return temper(task, starts, heat, {proposals, {}}, seed, threads, watches);
  }
  double least_F(const std::vector<Found>& found) const {
    double least = 1e300;
    for (const Found& each : found) least = std::min(least, score::Pricer(model, each.held, {}).F());
    return least;
  }

  quilt::Quilt quilt;
  score::Measure measure;
  score::Model model;
  Task task;
  std::vector<std::vector<Held>> starts;
  Heat heat;
};

support::Wanted squares(int rows, int columns, int prints) {
  support::Wanted wanted;
  wanted.rows = rows;
  wanted.columns = columns;
  wanted.prints = prints;
  wanted.dealt_evenly = true;
  return wanted;
}

TEST(Tempering, FindsBetterLayoutsThanAsManyRunsThatOnlyCool) {
  const Bench bench(squares(7, 6, 7));
  const std::int64_t proposals = 100'000 * bench.model.places;
  double exchanged = 0, cooled = 0;
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    exchanged += bench.least_F(bench.tempered(proposals, {seed}));
    std::vector<Found> alone(kLayouts);
    run_all(kLayouts, 0, [&](int k) {
      alone[k] = anneal(bench.task, bench.starts[k], bench.heat, {proposals, {}}, derived({seed}, k),
                        [](const Standing&) { return true; });
    });
    cooled += bench.least_F(alone);
  }
  EXPECT_LT(exchanged, cooled);
}

TEST(Tempering, GivesTheSameLayoutsOnAnyNumberOfThreads) {
  support::Wanted wanted = squares(5, 4, 5);
  wanted.patterns = {support::half_square()};
  wanted.spares = 3;
  const Bench bench(wanted);
  const std::vector<Found> one = bench.tempered(20'000, {1}, 1);
  for (const int threads : {2, 3, 8}) {
    const std::vector<Found> more = bench.tempered(20'000, {1}, threads);
    for (int k = 0; k < kLayouts; ++k) EXPECT_EQ(one[k].held, more[k].held) << threads << " threads";
  }
}

TEST(Tempering, EndsWhereNoSwapBetters) {
  const Bench bench(squares(5, 5, 6));
  for (const Found& found : bench.tempered(10'000, {1})) {
    const Found down = descend(bench.task, found.held, bench.heat, {9}, [](const Standing&) { return true; });
    EXPECT_NEAR(bench.least_F({down}), bench.least_F({found}), 1e-9);
  }
}

TEST(Tempering, TellsEachRunFromItsBeginningToItsEndAndStopsWhenTold) {
  const Bench bench(squares(6, 5, 6));
  std::vector<double> done(kLayouts, -1);
  std::vector<Watch> watches;
  for (int k = 0; k < kLayouts; ++k) {
    watches.push_back([&done, k](const Standing& standing) {
      EXPECT_GE(standing.done, done[k]);
      done[k] = standing.done;
      return true;
    });
  }
  temper(bench.task, bench.starts, bench.heat, {10'000, {}}, {1}, 2, watches);
  for (const double each : done) EXPECT_EQ(each, 1);

  std::atomic<int> told{0};
  for (Watch& watch : watches) {
    watch = [&told](const Standing&) {
      ++told;
      return false;
    };
  }
  temper(bench.task, bench.starts, bench.heat, {1'000'000'000'000, {}}, {1}, 2, watches);
  EXPECT_LE(told, 2 * kLayouts) << "one step, and the end";
}

TEST(Tempering, WhatMovedLessIsToldAsTheScoreSaysIt) {
  const Bench bench(squares(6, 5, 6));
  const score::Pricer first(bench.model, bench.starts[0], {});
  std::vector<Watch> watches(kLayouts, [](const Standing&) { return true; });
  watches[0] = [&](const Standing& standing) {
    const score::Pricer now(bench.model, standing.found().held, {});
    EXPECT_NEAR(standing.change.F, now.F() - first.F(), 1e-9);
    EXPECT_EQ(standing.change.touch.count, now.touch().count - first.touch().count);
    return true;
  };
  temper(bench.task, bench.starts, bench.heat, {5'000, {}}, {1}, 1, watches);
}

TEST(InSteps, EveryTaskIsDoneOnceInEveryStep) {
  for (const int threads : {1, 2, 5}) {
    std::vector<int> done(7, 0);
    int steps = 0;
    run_in_steps(
        7, threads, [&](int k) { ++done[k]; },
        [&] {
          for (const int each : done) EXPECT_EQ(each, steps + 1);
          return ++steps < 50;
        });
    EXPECT_EQ(steps, 50);
  }
}

}  // namespace
}  // namespace farflung::arrange
