#include "makeup/cuts.hpp"

#include <map>
#include <vector>

#include <gtest/gtest.h>

#include "makeup/deal.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::makeup {
namespace {

using Cuts = std::vector<Cut>;

Point at(double x, double y) { return {Length::inches(x), Length::inches(y)}; }

/// By print, the slots that it fills.
std::map<int, int> times_dealt(const quilt::Quilt& quilt) {
  std::map<int, int> times;
  for (const block::Block& block : quilt.blocks) {
    for (const int print : block.prints) ++times[print];
  }
  return times;
}

TEST(Cuts, HalfSquareTrianglesComeInTwos) {
  EXPECT_EQ(cuts_of(support::half_square(), 0), Cuts({{2, 1, 6}}));
  EXPECT_EQ(blocks_of_whole_squares(cuts_of(support::half_square(), 0)), 2);
  EXPECT_EQ(cuts_of(support::pinwheel(), 1), Cuts({{2, 4, 3}}));
  EXPECT_EQ(blocks_of_whole_squares(cuts_of(support::pinwheel(), 1)), 1);
}

TEST(Cuts, QuarterSquareTrianglesComeInFours) {
  block::Pattern hourglass = support::half_square();
  hourglass.patches = {{0, {at(0, 0), at(6, 0), at(3, 3)}},
                       {1, {at(6, 0), at(6, 6), at(3, 3)}},
                       {0, {at(6, 6), at(0, 6), at(3, 3)}},
                       {1, {at(0, 6), at(0, 0), at(3, 3)}}};
  EXPECT_EQ(cuts_of(hourglass, 0), Cuts({{4, 2, 4.243}}));
  EXPECT_EQ(blocks_of_whole_squares(cuts_of(hourglass, 0)), 2);
  hourglass.patches[2].slot = 1;
  EXPECT_EQ(blocks_of_whole_squares(cuts_of(hourglass, 0)), 4);
  EXPECT_EQ(blocks_of_whole_squares(cuts_of(hourglass, 1)), 4) << "three to a block";
}

TEST(Cuts, AnythingElseIsCutPieceByPiece) {
  EXPECT_TRUE(cuts_of(support::square(), 0).empty());
  EXPECT_TRUE(cuts_of(support::uneven_rails(), 2).empty());
  EXPECT_EQ(blocks_of_whole_squares({}), 1);
}

TEST(Cuts, TrianglesBesideOtherPatchesInASlotAreCutWholeToo) {
  block::Pattern mixed = support::half_square();  // a square, a half-square and a quarter-square triangle of one print
  mixed.slots.resize(2);
  mixed.patches = {{0, {at(0, 0), at(3, 0), at(3, 3), at(0, 3)}}, {0, {at(3, 0), at(6, 0), at(3, 3)}},
                   {1, {at(6, 0), at(6, 3), at(3, 3)}},           {0, {at(0, 6), at(3, 3), at(6, 6)}},
                   {1, {at(0, 3), at(3, 3), at(0, 6)}},           {1, {at(3, 3), at(6, 3), at(6, 6)}}};
  EXPECT_EQ(cuts_of(mixed, 0), Cuts({{2, 1, 3}, {4, 1, 4.243}}));
  EXPECT_EQ(blocks_of_whole_squares(cuts_of(mixed, 0)), 4);
  EXPECT_EQ(blocks_of_whole_squares(cuts_of(mixed, 1)), 2) << "three half-square triangles";
}

TEST(Cuts, AreDealtWholeAndWhatIsLeftOverIsTold) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    support::Wanted wanted;
    wanted.rows = 5;
    wanted.columns = 5;
    wanted.prints = 7;
    wanted.patterns = {support::half_square()};
    quilt::Quilt quilt = support::undealt_quilt({seed}, wanted);
    const auto blocks = deal(quilt, {.seed = {seed}});
    ASSERT_TRUE(blocks.ok());
    quilt.blocks = *blocks;
    EXPECT_TRUE(left_over(quilt).empty()) << "fifty triangles are twenty-five squares";
    for (const auto& [print, count] : times_dealt(quilt)) {
      EXPECT_EQ(count % 2, 0);
      EXPECT_NEAR(count, 50.0 / 7, 2);
    }
    quilt.blocks[0].prints[0] = (quilt.blocks[0].prints[0] + 1) % 7;
    EXPECT_EQ(left_over(quilt).size(), 2u);
  }
}

TEST(Cuts, HalfSquareTrianglesAreDealtInFoursAndEightsWhereTheyAreCutSo) {
  EXPECT_EQ(cuts_of(support::half_square(), 0, {8}), Cuts({{8, 1, 6}}));
  EXPECT_EQ(blocks_of_whole_squares(cuts_of(support::pinwheel(), 1, {8})), 2) << "four to a block";
  for (const int from_square : {4, 8}) {
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
      support::Wanted wanted;
      wanted.rows = 8;
      wanted.columns = 6;
      wanted.prints = 5;
      wanted.patterns = {support::half_square()};
      quilt::Quilt quilt = support::undealt_quilt({seed}, wanted);
      const auto blocks = deal(quilt, {.seed = {seed}, .prints = {}, .most = {}, .halves = {from_square}});
      ASSERT_TRUE(blocks.ok());
      quilt.blocks = *blocks;
      EXPECT_TRUE(left_over(quilt, {from_square}).empty()) << "ninety-six triangles are twelve squares of eight";
      for (const block::Block& block : quilt.blocks) EXPECT_NE(block.prints[0], block.prints[1]);
      for (const auto& [print, count] : times_dealt(quilt)) {
        EXPECT_EQ(count % from_square, 0);
        EXPECT_NEAR(count, 96.0 / 5, from_square);
      }
    }
  }
}

TEST(Cuts, FoursAreDealtWholeWhetherABlockTakesOneOfThemOrTwo) {
  block::Pattern four = support::half_square();  // quarter-square triangles, each a slot of its own
  four.slots.resize(4);
  for (int slot = 0; slot < 4; ++slot) four.slots[slot].name = std::string(1, static_cast<char>('A' + slot));
  four.patches = {{0, {at(0, 0), at(6, 0), at(3, 3)}},
                  {1, {at(6, 0), at(6, 6), at(3, 3)}},
                  {2, {at(6, 6), at(0, 6), at(3, 3)}},
                  {3, {at(0, 6), at(0, 0), at(3, 3)}}};
  block::Pattern two = four;  // the facing ones of one print
  two.slots.resize(2);
  two.patches[2].slot = 0;
  two.patches[3].slot = 1;
  for (const block::Pattern& pattern : {four, two}) {
    const int each = 4 / static_cast<int>(pattern.slots.size());
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
      support::Wanted wanted;
      wanted.rows = 6;
      wanted.columns = 5;
      wanted.prints = 7;
      wanted.patterns = {pattern};
      quilt::Quilt quilt = support::undealt_quilt({seed}, wanted);
      const auto blocks = deal(quilt, {.seed = {seed}});
      ASSERT_TRUE(blocks.ok());
      quilt.blocks = *blocks;
      EXPECT_TRUE(left_over(quilt).empty()) << "a hundred and twenty triangles are thirty squares";
      for (const auto& [print, count] : times_dealt(quilt)) {
        EXPECT_EQ(count * each % 4, 0);
        EXPECT_NEAR(count * each, 120.0 / 7, 4);
      }
      quilt.blocks[0].prints[0] = (quilt.blocks[0].prints[0] + 1) % 7;
      const std::vector<LeftOver> left = left_over(quilt);
      ASSERT_EQ(left.size(), 2u);
      EXPECT_EQ(left[0].pieces + left[1].pieces, 4) << "of one print the rest of a square, of the other of another";
    }
  }
}

}  // namespace
}  // namespace farflung::makeup
