#include "base/counted.hpp"

#include <gtest/gtest.h>

namespace farflung {
namespace {

TEST(Counted, OneIsOneAndNoneIsMany) {
  EXPECT_EQ(counted(1, "block"), "1 block");
  EXPECT_EQ(counted(0, "block"), "0 blocks");
  EXPECT_EQ(counted(std::size_t{3}, "block"), "3 blocks");
  EXPECT_EQ(counted(2, "touch", "touches"), "2 touches");
}

}  // namespace
}  // namespace farflung
