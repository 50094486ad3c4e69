#include "print/distance.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "base/rng.hpp"

namespace farflung::print {
namespace {

std::vector<PaletteColour> drawn(Rng& rng, int count) {
  std::vector<PaletteColour> palette;
  double all = 0;
  for (int i = 0; i < count; ++i) {
    palette.push_back({{rng.between(5, 95), rng.between(-50, 50), rng.between(-50, 50)}, rng.between(0.05, 1)});
    all += palette.back().share;
  }
  for (PaletteColour& colour : palette) colour.share /= all;
  return palette;
}

Print seen(colour::Lab lab, double scale) {
  Print print;
  print.features.lab = lab;
  print.features.palette = {{lab, 0.7}, {{lab.L + 20, lab.a, lab.b}, 0.3}};
  print.features.scale = scale;
  print.photo = Sighting{};
  return print;
}

TEST(Transport, TwoSingleColoursAreTheirDifferenceApart) {
  const colour::Lab kelp{40, -20, 15}, buoy{60, 50, 40};
  EXPECT_DOUBLE_EQ(transport({{kelp, 1}}, {{buoy, 1}}), colour::delta_e_2000(kelp, buoy));
}

TEST(Transport, MovesOnlyTheShareThatDiffers) {
  const colour::Lab kelp{40, -20, 15}, buoy{60, 50, 40};
  EXPECT_NEAR(transport({{kelp, 0.7}, {buoy, 0.3}}, {{kelp, 0.5}, {buoy, 0.5}}), 0.2 * colour::delta_e_2000(kelp, buoy),
              1e-12);
}

TEST(Transport, IsSymmetricAndNoneFromAPaletteToItself) {
  Rng rng(Seed{5});
  for (int round = 0; round < 200; ++round) {
    const auto a = drawn(rng, 1 + static_cast<int>(rng.below(6))), b = drawn(rng, 1 + static_cast<int>(rng.below(6)));
    EXPECT_NEAR(transport(a, b), transport(b, a), 1e-9);
    EXPECT_NEAR(transport(a, a), 0, 1e-9);
  }
}

/// With equal shares the best plan is a pairing: every pairing is tried.
TEST(Transport, IsTheBestOfAllPairingsWhereSharesAreEqual) {
  Rng rng(Seed{6});
  for (int round = 0; round < 60; ++round) {
    auto a = drawn(rng, 5), b = drawn(rng, 5);
    for (int i = 0; i < 5; ++i) a[i].share = b[i].share = 0.2;
    std::vector<int> order = {0, 1, 2, 3, 4};
    double best = 1e9;
    do {
      double sum = 0;
      for (int i = 0; i < 5; ++i) sum += 0.2 * colour::delta_e_2000(a[i].lab, b[order[i]].lab);
      best = std::min(best, sum);
    } while (std::next_permutation(order.begin(), order.end()));
    EXPECT_NEAR(transport(a, b), best, 1e-9);
  }
}

TEST(Distance, ScaleAndBusynessTellPrintsOfOnePaletteApart) {
  Print small = seen({50, 10, 10}, 0.5), large = seen({50, 10, 10}, 1.0);
  EXPECT_NEAR(distance(small.features, large.features), 4, 1e-9);
  large.features.scale.reset();
  EXPECT_NEAR(distance(small.features, large.features), 0, 1e-9);
  large.features.busyness = 0.5;
  EXPECT_NEAR(distance(small.features, large.features), 6, 1e-9);
}

TEST(Distance, ScalesKnownAsSharesOfTheirSwatchesCountHalf) {
  Print small = seen({50, 10, 10}, 1), large = small;
  small.features.scale.reset(), large.features.scale.reset();
  small.features.scale_share = 0.1, large.features.scale_share = 0.2;
  EXPECT_NEAR(distance(small.features, large.features), 2, 1e-9);
  small.features.scale = 1, large.features.scale = 1;  // inches are surer
  EXPECT_NEAR(distance(small.features, large.features), 0, 1e-9);
}

}  // namespace
}  // namespace farflung::print
