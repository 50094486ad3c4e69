#include "project/scratch.hpp"

#include <gtest/gtest.h>

#include "project/world.hpp"

namespace farflung::project {
namespace {

TEST(Scratch, GivesBackWhatWasPutByAndLeavesNothing) {
  const TemporaryFolder folder;
  {
    Scratch scratch(folder.path());
    const auto first = scratch.put(std::string(100'000, 'a'));
    const auto none = scratch.put("");
    const auto second = scratch.put("b");
    EXPECT_EQ(must(scratch.get(second)), "b");
    EXPECT_EQ(must(scratch.get(none)), "");
    EXPECT_EQ(must(scratch.get(first)), std::string(100'000, 'a'));
    EXPECT_TRUE(std::filesystem::is_empty(folder.path())) << "it has no name";
  }
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST(Scratch, HoldsInMemoryWhatTheDiskDoesNotTake) {
  Scratch scratch("/nowhere");
  const auto piece = scratch.put("bytes");
  EXPECT_EQ(piece.held, "bytes");
  EXPECT_EQ(must(scratch.get(piece)), "bytes");
}

}  // namespace
}  // namespace farflung::project
