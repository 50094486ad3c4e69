#include "job/wall_words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/random_quilt.hpp"

namespace farflung::job {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

/// A wall of 4 x 5 that hangs as planned, so many of its places not sure.
std::string words_of_wall(int unsure) {
  support::Wanted wanted;
  wanted.rows = 4;
  wanted.columns = 5;
  const quilt::Quilt quilt = support::random_quilt(Seed{3}, wanted);
  wall::WallRead read;
  for (int cell = 0; cell < 20; ++cell) {
    wall::CellRead one;
    one.cell = cell;
    one.block = quilt.layout.block[cell];
    one.turn = quilt.layout.turn[cell];
    one.sure = cell >= unsure;
    read.cells.push_back(one);
  }
  return words_of(quilt, quilt::plan_of(quilt), read);
}

TEST(WallWords, SayHowMuchOfTheReadingCanBeBuiltOn) {
  EXPECT_EQ(words_of_wall(0), "20 places read, all as planned.\n");
  EXPECT_THAT(words_of_wall(6), Not(HasSubstr("So many")));
  for (const int unsure : {7, 10}) {
    EXPECT_THAT(words_of_wall(unsure), HasSubstr("So many are not sure that the blocks may not lie where"));
    EXPECT_THAT(words_of_wall(unsure), HasSubstr("Look at these yourself:\n  R1 C1: read as "));
  }
  EXPECT_THAT(words_of_wall(11), StartsWith("The wall could hardly be read. Of 20 places 9 are sure, so no swaps"));
  EXPECT_THAT(words_of_wall(19), HasSubstr("Of 20 places 1 is sure,"));
  EXPECT_THAT(words_of_wall(20), HasSubstr("Of 20 places none is sure,"));
  EXPECT_THAT(words_of_wall(20), Not(HasSubstr("read as"))) << "a guess at each place would help nobody";
}

TEST(WallWords, ADifferenceThatIsNotSureIsMarkedAsOneToLookAt) {
  const quilt::Quilt quilt = support::random_quilt(Seed{3}, {});
  const setting::Plan plan = quilt::plan_of(quilt);
  wall::WallRead read;
  for (int cell = 0; cell < static_cast<int>(plan.cells.size()); ++cell) {
    wall::CellRead one;
    one.cell = cell;
    one.block = quilt.layout.block[cell];
    one.sure = cell != 1;
    read.cells.push_back(one);
  }
  for (const int cell : {0, 1}) {
    read.cells[cell].state = wall::CellRead::State::missing;
    read.cells[cell].block = quilt::kNone;
    read.differs.push_back({wall::Difference::Kind::missing, cell, quilt.layout.block[cell], quilt::kNone});
  }
  EXPECT_THAT(words_of(quilt, plan, read), HasSubstr("R1 C1: nothing lies here"));
  EXPECT_THAT(words_of(quilt, plan, read), HasSubstr("R1 C2, not sure: nothing lies here"));
  const std::vector<draw::CellMark> marks = marks_on_read(quilt, plan, read);
  ASSERT_EQ(marks.size(), 2U);
  EXPECT_EQ(marks[0].kind, draw::CellMark::Kind::wrong);
  EXPECT_EQ(marks[1].kind, draw::CellMark::Kind::unsure);
  EXPECT_EQ(marks[1].words, "look: empty");
}

}  // namespace
}  // namespace farflung::job
