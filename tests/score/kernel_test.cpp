#include "score/kernel.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "base/rng.hpp"
#include "score/measure.hpp"
#include "score/pricer.hpp"
#include "support/oracle.hpp"
#include "support/random_quilt.hpp"

namespace farflung::score {
namespace {

/// Above Kernel::kDense: the tables are not written out.
quilt::Quilt large(Seed seed) {
  support::Wanted wanted;
  wanted.rows = 26;
  wanted.columns = 25;
  wanted.prints = 9;
  return support::random_quilt(seed, wanted);
}

TEST(Kernel, SaysTheSameOnLargeGridsAsItsDefinition) {
  const Measure measure(large({1}));
  const Places& places = measure.places();
  const int n = places.count();
  ASSERT_GT(n, Kernel::kDense);
  const auto squared = [&](int i, int j) {
    return std::pow(places.x[i] - places.x[j], 2) + std::pow(places.y[i] - places.y[j], 2);
  };
  const auto windows = [&](int i, int j) {
    double sum = 0;
    for (const double s : kEvennessScales) {
      for (int k = 0; k < n; ++k) {
        double whole = 0;
        for (int m = 0; m < n; ++m) whole += std::exp(-squared(k, m) / (2 * s * s));
        sum += std::exp(-(squared(k, i) + squared(k, j)) / (2 * s * s)) / (whole * whole) / (3.0 * n);
      }
    }
    return sum;
  };
  for (const auto& [i, j] : {std::pair(0, 0), {3, 29}, {77, 77}, {312, 340}, {649, 600}}) {
    EXPECT_NEAR(measure.inverse_square().at(i, j), i == j ? 0 : 1 / squared(i, j), 1e-12);
    const double truth = windows(i, j);
    EXPECT_NEAR(measure.evenness_windows().at(i, j), truth, 1e-9 * truth);
  }
}

TEST(Kernel, AddsAColumnAsItReadsItsEntries) {
  const Measure measure(large({2}));
  const int n = measure.places().count();
  for (const Kernel* kernel :
       {&measure.inverse_square(), &measure.coverage_windows(), &measure.evenness_windows(), &measure.streaks()}) {
    for (const int j : {0, 24, 333, 649}) {
      std::vector<double> column(n, 0.0);
      kernel->add_column(j, 2, column);
      for (int i = 0; i < n; ++i) ASSERT_NEAR(column[i], 2 * kernel->at(i, j), 1e-15);
    }
  }
}

TEST(Kernel, PricesSwapsOnLargeGridsExactly) {
  quilt::Quilt quilt = large({3});
  const Measure measure(quilt);
  const Model model = model_of(measure);
  std::vector<Held> held;
  for (const int block : quilt.layout.block) held.push_back({block, 0});
  Pricer pricer(model, held, {});
  Score before = measure.score(quilt.layout);
  Rng rng({4});
  for (int k = 0; k < 60; ++k) {
    const int a = static_cast<int>(rng.below(650));
    const int b = static_cast<int>(rng.below(650));
    if (a == b) continue;
    const Price price = pricer.delta(Swap{a, b, 0, 0});
    pricer.apply(Swap{a, b, 0, 0});
    std::swap(quilt.layout.block[a], quilt.layout.block[b]);
    const Score after = measure.score(quilt.layout);
    EXPECT_NEAR(price.F, after.F - before.F, 1e-11);
    EXPECT_EQ(price.touch.count, after.terms.touches - before.terms.touches);
    before = after;
  }
}

}  // namespace
}  // namespace farflung::score
