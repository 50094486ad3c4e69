#include "makeup/cuts.hpp"

#include <map>

#include <gtest/gtest.h>

#include "makeup/deal.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::makeup {
namespace {

TEST(Cuts, HalfSquareTrianglesComeInTwos) {
  EXPECT_EQ(cut_of(support::half_square(), 0), (Cut{2, 1, 6}));
  EXPECT_EQ(cut_of(support::half_square(), 0).blocks(), 2);
  EXPECT_EQ(cut_of(support::pinwheel(), 1), (Cut{2, 4, 3}));
  EXPECT_EQ(cut_of(support::pinwheel(), 1).blocks(), 1);
}

TEST(Cuts, QuarterSquareTrianglesComeInFours) {
  block::Pattern hourglass = support::half_square();
  const auto at = [](double x, double y) { return Point{Length::inches(x), Length::inches(y)}; };
  hourglass.patches = {{0, {at(0, 0), at(6, 0), at(3, 3)}},
                       {1, {at(6, 0), at(6, 6), at(3, 3)}},
                       {0, {at(6, 6), at(0, 6), at(3, 3)}},
                       {1, {at(0, 6), at(0, 0), at(3, 3)}}};
  EXPECT_EQ(cut_of(hourglass, 0).pieces, 4);
  EXPECT_EQ(cut_of(hourglass, 0).per_block, 2);
  EXPECT_EQ(cut_of(hourglass, 0).blocks(), 2);
}

TEST(Cuts, AnythingElseIsCutPieceByPiece) {
  EXPECT_EQ(cut_of(support::square(), 0).pieces, 1);
  EXPECT_EQ(cut_of(support::uneven_rails(), 2).pieces, 1);
}

TEST(Cuts, AreDealtWholeAndWhatIsLeftOverIsTold) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    support::Wanted wanted;
    wanted.rows = 5;
    wanted.columns = 5;
    wanted.prints = 7;
    wanted.patterns = {support::half_square()};
    quilt::Quilt quilt = support::random_quilt({seed}, wanted);
    for (block::Block& block : quilt.blocks) block.prints = {quilt::kNone, quilt::kNone};
    const auto blocks = deal(quilt, {.seed = {seed}});
    ASSERT_TRUE(blocks.ok());
    quilt.blocks = *blocks;
    EXPECT_TRUE(left_over(quilt).empty()) << "fifty triangles are twenty-five squares";
    std::map<int, int> triangles;
    for (const block::Block& block : quilt.blocks) {
      ++triangles[block.prints[0]];
      ++triangles[block.prints[1]];
    }
    for (const auto& [print, count] : triangles) {
      EXPECT_EQ(count % 2, 0);
      EXPECT_NEAR(count, 50.0 / 7, 2);
    }
    quilt.blocks[0].prints[0] = (quilt.blocks[0].prints[0] + 1) % 7;
    EXPECT_EQ(left_over(quilt).size(), 2u);
  }
}

}  // namespace
}  // namespace farflung::makeup
