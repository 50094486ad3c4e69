#include "score/explain.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "support/random_quilt.hpp"

namespace farflung::score {
namespace {

/// A grid of squares, its prints given cell by cell; print p is lab `labs[p]`.
quilt::Quilt grid(int rows, int columns, const std::vector<int>& prints, const std::vector<colour::Lab>& labs) {
  support::Wanted wanted;
  wanted.rows = rows;
  wanted.columns = columns;
  wanted.prints = static_cast<int>(labs.size());
  quilt::Quilt quilt = support::random_quilt({1}, wanted);
  for (std::size_t p = 0; p < labs.size(); ++p) quilt.prints[p].features = {.lab = labs[p]};
  for (std::size_t cell = 0; cell < prints.size(); ++cell) {
    quilt.layout.block[cell] = static_cast<int>(cell);
    quilt.blocks[cell].prints = {prints[cell]};
  }
  return quilt;
}

Explanation explained(const quilt::Quilt& quilt) { return explain(Measure(quilt), quilt.layout); }

TEST(Explain, NamesTheClosestTwoCopiesAndHowFarApartTheyCouldBe) {
  const quilt::Quilt quilt = grid(3, 3, {0, 0, 1, 1, 1, 1, 1, 1, 1}, {{20, 0, 0}, {80, 0, 0}});
  const PrintSpacing spacing = explained(quilt).spacings[0];
  EXPECT_EQ(spacing.copies, 2);
  EXPECT_DOUBLE_EQ(spacing.nearest, 1);
  EXPECT_EQ(spacing.nearest_a, 0);
  EXPECT_EQ(spacing.nearest_b, 1);
  EXPECT_DOUBLE_EQ(spacing.ideal, std::sqrt(8.0));  // from corner to corner
}

TEST(Explain, KnowsTheBestSpacingOfAFewCopiesOnSmallGridsByExhaustion) {
  for (int rows = 2; rows <= 4; ++rows) {
    for (int columns = rows; columns <= 4; ++columns) {
      const int n = rows * columns;
      const quilt::Quilt quilt = grid(rows, columns, std::vector<int>(n, 0), {{50, 0, 0}});
      const Measure measure(quilt);
      for (int copies = 2; copies <= n; ++copies) {
        double best = 0;
        for (unsigned set = 0; set < (1u << n); ++set) {
          if (__builtin_popcount(set) != copies) continue;
          double least = 1e9;
          for (int i = 0; i < n; ++i) {
            for (int j = i + 1; j < n; ++j) {
              if ((set >> i & 1) && (set >> j & 1)) {
                least = std::min(least, std::hypot(i / columns - j / columns, i % columns - j % columns));
              }
            }
          }
          best = std::max(best, least);
        }
        EXPECT_NEAR(even_spacing(measure.places(), copies), best, 1e-9) << copies << " on " << rows << " x " << columns;
      }
    }
  }
}

TEST(Explain, FindsTheRegionWithTheStrongestCastAndItsColour) {
  std::vector<int> prints(64, 1);
  for (const int cell : {0, 1, 2, 8, 9, 10, 16, 17}) prints[cell] = 0;  // red in the top left corner
  for (const int cell : {29, 43, 60}) prints[cell] = 0;
  const RegionCast cast = explained(grid(8, 8, prints, {{40, 60, 30}, {60, -5, 0}})).strongest;
  EXPECT_TRUE(cast.cell == 0 || cast.cell == 1 || cast.cell == 8 || cast.cell == 9) << cast.cell;
  EXPECT_GT(cast.lab.a, cast.mean.a + 15);
  EXPECT_LT(cast.lab.L, cast.mean.L);
  EXPECT_GT(cast.strength, 3);
}

TEST(Explain, FindsCopiesAtEqualStepsAlongALine) {
  std::vector<int> prints(25, 1);
  for (const int cell : {0, 7, 14, 20}) prints[cell] = 0;  // R1C1, R2C3, R3C5: a knight's step; and one more
  const auto found = explained(grid(5, 5, prints, {{20, 0, 0}, {80, 0, 0}})).equal_steps;
  int of_first = 0;
  for (const EqualSteps& steps : found) {
    if (steps.print != 0) continue;
    ++of_first;
    EXPECT_EQ(steps.cells, (std::vector<int>{0, 7, 14}));
    EXPECT_NEAR(steps.step, std::sqrt(5.0), 1e-9);
  }
  EXPECT_EQ(of_first, 1);
}

TEST(Explain, FindsARowThatReadsAsAStripe) {
  std::vector<int> prints;
  for (int cell = 0; cell < 36; ++cell) prints.push_back(cell / 6 == 2 ? 0 : 1 + cell % 2);
  const auto lines = explained(grid(6, 6, prints, {{15, 0, 0}, {70, 0, 0}, {75, 0, 0}})).lines;
  ASSERT_FALSE(lines.empty());
  EXPECT_EQ(lines.front().way, Line::Way::row);
  EXPECT_EQ(lines.front().what, LineCast::What::value);
  EXPECT_EQ(lines.front().cells.front(), 12);
  EXPECT_LT(lines.front().deviations, -4);
  EXPECT_NEAR(lines.front().above, 15 - (6 * 15.0 + 15 * 70 + 15 * 75) / 36, 1e-9);
}

TEST(Explain, FindsAStrongAccentOnACentreLineOrSharingALine) {
  std::vector<int> prints(49, 1);
  prints[3] = 0;   // R1C4: on the centre column of seven
  prints[36] = 0;  // R6C2
  prints[40] = 0;  // R6C6
  const auto accents = explained(grid(7, 7, prints, {{50, 80, 60}, {60, -5, 0}})).accents;
  int centre = 0;
  int shared = 0;
  for (const AccentInLine& accent : accents) {
    EXPECT_EQ(accent.print, 0);
    (accent.where == AccentInLine::Where::centre_line ? centre : shared) += 1;
    if (accent.where == AccentInLine::Where::shared_line) {
      EXPECT_EQ(accent.way, Line::Way::row);
      EXPECT_EQ(accent.cells, (std::vector<int>{36, 40}));
    }
  }
  EXPECT_EQ(centre, 1);
  EXPECT_EQ(shared, 1);
}

}  // namespace
}  // namespace farflung::score
