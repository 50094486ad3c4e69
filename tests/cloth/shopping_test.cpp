#include "cloth/shopping.hpp"

#include <gtest/gtest.h>

namespace farflung::cloth {
namespace {

quilt::Quilt of_three_prints() {
  quilt::Quilt quilt;
  for (const char* name : {"Kelp", "Buoy", "Gannet"}) {
    quilt.prints.emplace_back();
    quilt.prints.back().name = name;
  }
  return quilt;
}

Purchase bought(const std::string& what, int print, double amount, const std::string& says) {
  Purchase one;
  one.what = what;
  one.print = print;
  one.amount = amount;
  one.unit = "yd";
  one.says = says;
  return one;
}

TEST(ShoppingLines, PrintsOfWhichTheSameIsBoughtStandInOneLine) {
  const std::vector<ShoppingLine> lines = shopping_lines(
      of_three_prints(), {bought("blocks", 0, 0.25, "8 pieces."), bought("blocks", 1, 0.5, "8 pieces."),
                          bought("blocks", 2, 0.25, "8 pieces."), bought("border 1", 0, 0.25, "8 pieces.")});
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0].prints, (std::vector<int>{0, 2}));
  EXPECT_DOUBLE_EQ(lines[0].each, 0.25);
  EXPECT_DOUBLE_EQ(lines[0].in_all, 0.5);
  EXPECT_EQ(lines[1].prints, std::vector<int>{1});
  EXPECT_EQ(lines[2].what, "border 1");
}

TEST(ShoppingLines, WhatIsMissingOfPrintsInHandIsMoreClothWhateverTheirNames) {
  const std::vector<ShoppingLine> lines =
      shopping_lines(of_three_prints(), {bought("Kelp", 0, 0.25, "8 of 3 in."), bought("Buoy", 1, 0.25, "8 of 3 in.")});
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].what, "more cloth");
  EXPECT_EQ(lines[0].prints, (std::vector<int>{0, 1}));
}

TEST(ShoppingLines, WhatHasNoPrintIsNeverAddedUp) {
  const std::vector<ShoppingLine> lines = shopping_lines(
      of_three_prints(), {bought("batting", kNone, 2, "By length."), bought("batting", kNone, 2, "By length.")});
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_TRUE(lines[0].prints.empty());
  EXPECT_DOUBLE_EQ(lines[0].in_all, 2);
}

}  // namespace
}  // namespace farflung::cloth
