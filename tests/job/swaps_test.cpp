#include "job/swaps.hpp"

#include "job/world.hpp"

namespace farflung::job {
namespace {

TEST(SwapsJob, WhatNoSwapBettersIsSaidWithoutALineForEachNumberOfThem) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  world.change({"take", {}, 0, "", Json({kelp}).dump()});
  const Outcome outcome = swaps({.folder = world.folder(), .most = 4});
  EXPECT_EQ(reported(outcome)["curve"].size(), 4U) << "the machine is told of each";
  EXPECT_EQ(outcome->words.find("With at most"), std::string::npos) << outcome->words;
  EXPECT_NE(outcome->words.find("No swap betters it."), std::string::npos);
}

}  // namespace
}  // namespace farflung::job
