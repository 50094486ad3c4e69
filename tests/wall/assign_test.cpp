#include "wall/assign.hpp"

#include <algorithm>
#include <numeric>

#include <gtest/gtest.h>

#include "base/rng.hpp"

namespace farflung::wall {
namespace {

std::vector<double> random_costs(Rng& rng, int rows, int columns) {
  std::vector<double> cost(static_cast<std::size_t>(rows) * columns);
  for (double& value : cost) value = rng.between(0, 10);
  return cost;
}

double least_by_trying(const std::vector<double>& cost, int rows, int columns) {
  std::vector<int> order(columns);
  std::iota(order.begin(), order.end(), 0);
  double least = 1e9;
  do {
    double sum = 0;
    for (int r = 0; r < rows; ++r) sum += cost[static_cast<std::size_t>(r) * columns + order[r]];
    least = std::min(least, sum);
  } while (std::next_permutation(order.begin(), order.end()));
  return least;
}

TEST(Assigned, IsAsCheapAsTryingEveryOrderFinds) {
  Rng rng(Seed{4});
  for (int trial = 0; trial < 30; ++trial) {
    const int rows = 3 + trial % 3;
    const int columns = rows + trial % 2;
    const std::vector<double> cost = random_costs(rng, rows, columns);
    const Assignment found = assigned(cost, rows, columns);
    double sum = 0;
    for (int r = 0; r < rows; ++r) sum += cost[static_cast<std::size_t>(r) * columns + found.column[r]];
    EXPECT_NEAR(sum, least_by_trying(cost, rows, columns), 1e-9);
  }
}

TEST(Assigned, ReducedCostsNeverOverstateWhatForcingAPairWouldCost) {
  Rng rng(Seed{5});
  const int n = 5;
  const std::vector<double> cost = random_costs(rng, n, n);
  const Assignment found = assigned(cost, n, n);
  const double least = least_by_trying(cost, n, n);
  for (int r = 0; r < n; ++r) {
    EXPECT_NEAR(found.reduced[static_cast<std::size_t>(r) * n + found.column[r]], 0, 1e-9);
    for (int c = 0; c < n; ++c) {
      std::vector<double> forced = cost;
      for (int other = 0; other < n; ++other) {
        if (other != c) forced[static_cast<std::size_t>(r) * n + other] = 1e6;
      }
      EXPECT_LE(found.reduced[static_cast<std::size_t>(r) * n + c], least_by_trying(forced, n, n) - least + 1e-9);
    }
  }
}

}  // namespace
}  // namespace farflung::wall
