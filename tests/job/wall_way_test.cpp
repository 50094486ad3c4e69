#include "job/wall_way.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/wall_words.hpp"
#include "support/random_quilt.hpp"

namespace farflung::job {
namespace {

using testing::HasSubstr;
using testing::Not;

/// A wall of 3 x 4 places, read for sure; the plan is the quilt's layout.
struct Hung {
  Hung() {
    support::Wanted wanted;
    wanted.rows = 3;
    wanted.columns = 4;
    planned = support::random_quilt(Seed{3}, wanted);
    for (std::size_t i = 0; i < planned.blocks.size(); ++i) {  // no two alike
      planned.blocks[i].prints = {static_cast<int>(i % planned.prints.size()),
                                  static_cast<int>((i / planned.prints.size() + i + 1) % planned.prints.size())};
      planned.blocks[i].prints.resize(planned.patterns[planned.blocks[i].pattern].slots.size(), 0);
    }
    as_read = planned;
  }

  void swap(int a, int b) {
    std::swap(as_read.layout.block[a], as_read.layout.block[b]);
    std::swap(as_read.layout.turn[a], as_read.layout.turn[b]);
  }

  wall::WallRead read(const std::vector<int>& unsure) const {
    wall::WallRead read;
    for (std::size_t c = 0; c < as_read.layout.block.size(); ++c) {
      wall::CellRead one;
      one.cell = static_cast<int>(c);
      one.block = as_read.layout.block[c];
      if (one.block == quilt::kNone) one.state = wall::CellRead::State::missing;
      one.turn = as_read.layout.turn[c];
      one.sure = std::find(unsure.begin(), unsure.end(), one.cell) == unsure.end();
      read.cells.push_back(one);
    }
    return read;
  }

  std::string way(const std::vector<int>& unsure = {}) const {
    Report report = new_report();
    return add_way_back(report, planned, as_read, read(unsure));
  }

  quilt::Quilt planned, as_read;
};

TEST(WallWay, AStepThatRestsOnAPlaceThatIsNotSureSaysSo) {
  Hung hung;
  hung.swap(0, 6);
  EXPECT_THAT(hung.way(), HasSubstr("1 swap"));
  EXPECT_THAT(hung.way(), Not(HasSubstr("not sure")));
  EXPECT_THAT(hung.way({6}), HasSubstr("(look at R2 C3 first: it is not sure)"));
  EXPECT_THAT(hung.way({0, 6}), HasSubstr("(look at R1 C1 and R2 C3 first: they are not sure)"));
  EXPECT_THAT(hung.way({5}), Not(HasSubstr("not sure"))) << "a place that the step does not touch";
}

TEST(WallWay, ABlockThatIsMissingDoesNotHideTheWayOfTheOthers) {
  Hung hung;
  hung.swap(0, 6);
  const int gone = hung.as_read.layout.block[9];
  hung.as_read.layout.block[9] = quilt::kNone;
  EXPECT_THAT(hung.way(), HasSubstr("1 swap"));
  EXPECT_THAT(hung.way(), HasSubstr("R3 C2 waits for " + hung.planned.blocks[gone].id + "."));
  hung.swap(0, 6);
  EXPECT_EQ(hung.way(), "R3 C2 waits for " + hung.planned.blocks[gone].id + ".\n");
  hung.swap(9, 8);
  EXPECT_EQ(hung.way(), "") << "something else lies in its place";
}

}  // namespace
}  // namespace farflung::job
