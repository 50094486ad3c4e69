#include "arrange/advice.hpp"

#include <gtest/gtest.h>

#include "score/measure.hpp"
#include "support/random_quilt.hpp"

namespace farflung::arrange {
namespace {

/// Squares of many quiet prints and, in the cells said, one strong accent.
quilt::Quilt with_accent(int side, const std::vector<int>& cells) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = side;
  wanted.prints = 8;
  wanted.dealt_evenly = true;
  quilt::Quilt quilt = support::random_quilt({3}, wanted);
  for (int p = 0; p < 8; ++p) quilt.prints[p].features.lab = {60.0 + p, -4.0 + p, 2.0 * p};
  quilt.prints[0].features.lab = {45, 75, 60};
  for (int cell = 0; cell < side * side; ++cell) {
    quilt.layout.block[cell] = cell;
    if (quilt.blocks[cell].prints[0] == 0) quilt.blocks[cell].prints[0] = 1;
  }
  for (const int cell : cells) quilt.blocks[cell].prints[0] = 0;
  return quilt;
}

TEST(AccentAdvice, NamesTheSwapThatTakesAnAccentOffTheCentreLine) {
  const quilt::Quilt quilt = with_accent(7, {3, 15});  // R1C4 on the centre column
  const auto advice = accent_advice(quilt);
  ASSERT_FALSE(advice.empty());
  ASSERT_TRUE(advice.front().mend.has_value());
  const MendingSwap& mend = *advice.front().mend;
  quilt::Quilt mended = quilt;
  std::swap(mended.layout.block[mend.cell_a], mended.layout.block[mend.cell_b]);
  const score::Measure measure(quilt);
  EXPECT_LT(score::accents_in_line(measure, mended.layout).size(), advice.size());
  EXPECT_LE(measure.terms(mended.layout).touches, measure.terms(quilt.layout).touches);
  EXPECT_NEAR(measure.score(mended.layout).F - measure.score(quilt.layout).F, mend.F, 1e-9);
}

TEST(AccentAdvice, MovesNoKeptCell) {
  quilt::Quilt quilt = with_accent(7, {3});
  quilt.layout.kept.assign(49, true);
  for (const AccentAdvice& advice : accent_advice(quilt)) EXPECT_FALSE(advice.mend.has_value());
}

TEST(KeptCosts, TellWhatEachKeptCellCosts) {
  quilt::Quilt quilt = with_accent(5, {0, 1});  // two accents side by side, one of them kept there
  quilt.layout.kept[0] = quilt.layout.kept[1] = true;
  const auto costs = kept_costs(quilt);
  ASSERT_EQ(costs.size(), 2u);
  EXPECT_GE(costs[0].touches, 1);
  EXPECT_GE(costs[1].touches, 1);
  quilt.layout.kept.assign(25, false);
  EXPECT_TRUE(kept_costs(quilt).empty());
}

}  // namespace
}  // namespace farflung::arrange
