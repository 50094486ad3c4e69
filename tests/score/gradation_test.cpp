#include "score/gradation.hpp"

#include <gtest/gtest.h>

#include "score/measure.hpp"
#include "support/random_quilt.hpp"

namespace farflung::score {
namespace {

/// Rows of squares, print p darker than print p + 1, laid in the order given.
quilt::Quilt row_of(const std::vector<int>& prints, int rows = 1) {
  support::Wanted wanted;
  wanted.rows = rows;
  wanted.columns = static_cast<int>(prints.size()) / rows;
  wanted.prints = static_cast<int>(prints.size());
  quilt::Quilt quilt = support::random_quilt({1}, wanted);
  quilt.goals.gradation = 1;
  for (int p = 0; p < wanted.prints; ++p) quilt.prints[p].features.lab = {20.0 + 10 * p, 0, 0};
  for (std::size_t cell = 0; cell < prints.size(); ++cell) {
    quilt.blocks[cell].prints = {prints[cell]};
    quilt.layout.block[cell] = static_cast<int>(cell);
  }
  return quilt;
}

double gradation_of(const quilt::Quilt& quilt) { return Measure(quilt).terms(quilt.layout).gradation; }

TEST(Gradation, IsNoughtFromLightToDarkAcrossAndMostTheOtherWay) {
  EXPECT_NEAR(gradation_of(row_of({4, 3, 2, 1, 0})), 0, 1e-12);
  EXPECT_GT(gradation_of(row_of({0, 1, 2, 3, 4})), gradation_of(row_of({3, 4, 2, 1, 0})));
  quilt::Quilt dark_first = row_of({0, 1, 2, 3, 4});
  dark_first.gradation.dark_first = true;
  EXPECT_NEAR(gradation_of(dark_first), 0, 1e-12);
}

TEST(Gradation, GoesDownTheTop) {
  quilt::Quilt quilt = row_of({4, 3, 2, 1, 0}, 5);
  quilt.gradation.way = quilt::Gradation::Way::down;
  EXPECT_NEAR(gradation_of(quilt), 0, 1e-12);
  EXPECT_GT(gradation_of(row_of({4, 3, 2, 1, 0}, 5)), 0.05) << "across, one column has no way to go";
}

TEST(Gradation, GoesFromOneCornerToTheFarOne) {
  const auto from_corner = [](const std::vector<int>& prints) {
    quilt::Quilt quilt = row_of(prints, 2);
    quilt.gradation.way = quilt::Gradation::Way::diagonal;
    return gradation_of(quilt);
  };
  EXPECT_NEAR(from_corner({3, 1, 2, 0}), from_corner({3, 2, 1, 0}), 1e-12) << "both other corners lie half way";
  EXPECT_LT(from_corner({3, 1, 2, 0}), from_corner({3, 1, 0, 2}));
  EXPECT_LT(from_corner({3, 1, 2, 0}), from_corner({0, 1, 2, 3}));
}

TEST(Gradation, GoesOutwardFromTheCentre) {
  quilt::Quilt quilt = row_of({1, 3, 4, 2, 0});
  quilt.gradation.way = quilt::Gradation::Way::outward;
  EXPECT_LT(gradation_of(quilt), 0.02);
  EXPECT_GT(gradation_of(row_of({1, 3, 4, 2, 0})), 0.05);
}

TEST(Gradation, FollowsAGreyPicture) {
  quilt::Quilt quilt = row_of({0, 4, 1, 3, 2});
  quilt.gradation.way = quilt::Gradation::Way::picture;
  quilt.gradation.picture_columns = 5;
  quilt.gradation.picture = {0.1F, 0.9F, 0.2F, 0.7F, 0.4F};
  EXPECT_NEAR(gradation_of(quilt), 0, 1e-12);
}

TEST(Gradation, TakesValueOutOfTheCasts) {
  quilt::Quilt quilt = row_of({4, 3, 2, 1, 0});
  EXPECT_GT(Measure(quilt).means().gradation, 0);
  const Measure graded(quilt);
  for (const Reading& cast : graded.casts()) EXPECT_EQ(cast[0], 0);
  quilt.goals.gradation = 0;
  EXPECT_NE(Measure(quilt).casts()[0][0], 0);
}

}  // namespace
}  // namespace farflung::score
