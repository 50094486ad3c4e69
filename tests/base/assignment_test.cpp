#include "base/assignment.hpp"

#include <algorithm>
#include <numeric>

#include <gtest/gtest.h>

#include "base/rng.hpp"

namespace farflung {
namespace {

struct Table {
  int rows = 0, columns = 0;
  std::vector<double> cost;
  double& at(int row, int column) { return cost[static_cast<std::size_t>(row) * columns + column]; }
};

/// Whole numbers, of which many are equal, and any numbers, below 0 too.
Table random_table(Rng& rng, int round) {
  Table table;
  table.rows = 1 + static_cast<int>(rng.below(5));
  table.columns = table.rows + static_cast<int>(rng.below(3));
  for (int i = 0; i < table.rows * table.columns; ++i) {
    table.cost.push_back(round % 3 == 0 ? rng.below(4) : rng.between(-5, 5));
  }
  return table;
}

double least_by_trying(Table table) {
  std::vector<int> order(table.columns);
  std::iota(order.begin(), order.end(), 0);
  double least = 1e9;
  do {
    double sum = 0;
    for (int row = 0; row < table.rows; ++row) sum += table.at(row, order[row]);
    least = std::min(least, sum);
  } while (std::next_permutation(order.begin(), order.end()));
  return least;
}

Assignment cheapest_of(const Table& table) { return cheapest_assignment(table.rows, table.columns, table.cost); }

TEST(Assignment, CostsNoMoreThanAnyOther) {
  Rng rng(Seed{11});
  for (int round = 0; round < 60; ++round) {
    Table table = random_table(rng, round);
    const Assignment cheapest = cheapest_of(table);
    double sum = 0;
    for (int row = 0; row < table.rows; ++row) {
      sum += table.at(row, cheapest.column[row]);
      EXPECT_EQ(std::count(cheapest.column.begin(), cheapest.column.end(), cheapest.column[row]), 1);
    }
    EXPECT_NEAR(sum, least_by_trying(table), 1e-9);
  }
}

TEST(Assignment, PricesProveThatNothingIsCheaper) {
  Rng rng(Seed{12});
  for (int round = 0; round < 30; ++round) {
    Table table = random_table(rng, round);
    const Assignment cheapest = cheapest_of(table);
    for (int row = 0; row < table.rows; ++row) {
      for (int column = 0; column < table.columns; ++column) {
        const double left = table.at(row, column) - cheapest.row_price[row] - cheapest.column_price[column];
        EXPECT_GE(left, -1e-9);
        if (column == cheapest.column[row]) {
          EXPECT_NEAR(left, 0, 1e-9);
        }
      }
    }
  }
}

TEST(Assignment, ForcingAPairCostsWhatTryingEveryOrderFinds) {
  Rng rng(Seed{5});
  for (int round = 0; round < 20; ++round) {
    Table table = random_table(rng, round);
    const std::vector<double> forcing = costs_of_forcing(cheapest_of(table), table.rows, table.columns, table.cost);
    const double least = least_by_trying(table);
    for (int row = 0; row < table.rows; ++row) {
      for (int column = 0; column < table.columns; ++column) {
        Table forced = table;
        for (int other = 0; other < table.columns; ++other) {
          if (other != column) forced.at(row, other) = 1e6;
        }
        EXPECT_NEAR(forcing[static_cast<std::size_t>(row) * table.columns + column], least_by_trying(forced) - least,
                    1e-9);
      }
    }
  }
}

}  // namespace
}  // namespace farflung
