#include "score/kernel.hpp"

#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "base/rng.hpp"
#include "score/measure.hpp"
#include "score/pricer.hpp"
#include "support/oracle.hpp"
#include "support/random_quilt.hpp"

namespace farflung::score {
namespace {

/// Above Kernel::kDense, so that tables are not written out: in every setting, with holes and without.
quilt::Quilt large(Seed seed, int setting) {
  using Kind = setting::Setting::Kind;
  constexpr std::array kKinds{Kind::straight, Kind::straight, Kind::straight,
                              Kind::brick,    Kind::on_point, Kind::on_point};
  support::Wanted wanted;
  wanted.prints = 9;
  wanted.kind = kKinds[setting];
  wanted.rows = wanted.kind == Kind::on_point ? 19 : 26;
  wanted.columns = wanted.kind == Kind::on_point ? 20 : 26;
  wanted.holes = setting == 1 || setting == 5 ? 12 : 0;
  wanted.sashing = setting == 2 || setting == 5;
  return support::random_quilt(seed, wanted);
}

class LargeKernel : public testing::TestWithParam<int> {};

/// Centres on point are rounded to the nanometre, a lattice is not: 5e-9 of a distance.
constexpr double kRounded = 1e-8;

TEST_P(LargeKernel, SaysTheSameAsItsDefinition) {
  const Measure measure(large({1}, GetParam()));
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
  for (const auto& [i, j] : {std::pair(0, 0), {3, 29}, {77, 77}, {312, 340}, {n - 1, n - 50}, {5, n - 2}}) {
    const double inverse = i == j ? 0 : 1 / squared(i, j);
    EXPECT_NEAR(measure.inverse_square().at(i, j), inverse, kRounded * inverse);
    const double truth = windows(i, j);
    EXPECT_NEAR(measure.evenness_windows().at(i, j), truth, kRounded * truth);
  }
  for (const int j : {0, 333, n - 1}) {
    double share = 0;
    for (const double s : kCoverageScales) {
      for (int k = 0; k < n; ++k) {
        double whole = 0;
        for (int m = 0; m < n; ++m) whole += std::exp(-squared(k, m) / (2 * s * s));
        share += std::exp(-squared(k, j) / (2 * s * s)) / whole / (2.0 * n);
      }
    }
    EXPECT_NEAR(measure.coverage_shares()[j], share, 1e-12);
  }
}

TEST_P(LargeKernel, AddsAColumnAsItReadsItsEntries) {
  const Measure measure(large({2}, GetParam()));
  const int n = measure.places().count();
  for (const Kernel* kernel :
       {&measure.inverse_square(), &measure.coverage_windows(), &measure.evenness_windows(), &measure.streaks()}) {
    for (const int j : {0, 24, 333, n - 1}) {
      std::vector<double> column(n, 0.0);
      kernel->add_column(j, 2, column);
      for (int i = 0; i < n; ++i) ASSERT_NEAR(column[i], 2 * kernel->at(i, j), 1e-15);
    }
  }
}

TEST_P(LargeKernel, AddsAStretchInSinglePrecisionAsItReadsItsEntries) {
  const Measure measure(large({2}, GetParam()));
  const int n = measure.places().count();
  for (const Kernel* kernel :
       {&measure.inverse_square(), &measure.coverage_windows(), &measure.evenness_windows(), &measure.streaks()}) {
    for (const auto& [i, first] : {std::pair(0, 0), {24, 333}, {333, 300}, {n - 1, n - 64}}) {
      std::vector<float> stretch(64, 0.0F);
      kernel->add_stretch(i, first, 3, stretch);
      const double nearest = 3 * std::max(kernel->at(i, i), kernel->at(i, i == 0 ? 1 : i - 1));
      for (int k = 0; k < 64; ++k) {
        const double truth = 3 * kernel->at(i, first + k);
        ASSERT_NEAR(stretch[k], truth, 1e-7 * (nearest + truth));
      }
    }
  }
}

TEST_P(LargeKernel, PricesSwapsExactly) {
  quilt::Quilt quilt = large({3}, GetParam());
  const Measure measure(quilt);
  const Model model = model_of(measure);
  std::vector<Held> held;
  for (const int cell : model.cell) held.push_back({quilt.layout.block[cell], 0});
  Pricer pricer(model, held, {});
  Score before = measure.score(quilt.layout);
  Rng rng({4});
  for (int k = 0; k < 20; ++k) {
    const int a = static_cast<int>(rng.below(static_cast<std::uint32_t>(model.places)));
    const int b = static_cast<int>(rng.below(static_cast<std::uint32_t>(model.places)));
    if (a == b) continue;
    const Price price = pricer.delta(Swap{a, b, 0, 0});
    pricer.apply(Swap{a, b, 0, 0});
    std::swap(quilt.layout.block[model.cell[a]], quilt.layout.block[model.cell[b]]);
    const Score after = measure.score(quilt.layout);
    EXPECT_NEAR(price.F, after.F - before.F, 1e-11);
    EXPECT_EQ(price.touch.count, after.terms.touches - before.terms.touches);
    before = after;
  }
}

TEST(Kernel, TenThousandPlacesOfAnySettingTakeMegabytes) {
  support::Wanted wanted;
  wanted.kind = setting::Setting::Kind::on_point;
  wanted.rows = wanted.columns = 71;
  wanted.holes = 30;
  const quilt::Quilt quilt = support::random_quilt({1}, wanted);
  const setting::Plan plan = quilt::plan_of(quilt);
  std::vector<bool> occupied;
  for (const int block : quilt.layout.block) occupied.push_back(block != kNone);
  const Places places = places_of(quilt.setting, plan, occupied);
  ASSERT_GT(places.count(), 9900);
  EXPECT_LT(Kernel::inverse_square(places).bytes(), 10e6);
  EXPECT_LT(Kernel::windows(places, kEvennessScales).bytes(), 10e6);
}

INSTANTIATE_TEST_SUITE_P(Kernel, LargeKernel, testing::Range(0, 6));

}  // namespace
}  // namespace farflung::score
