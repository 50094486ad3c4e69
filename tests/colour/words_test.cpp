#include "colour/words.hpp"

#include <gtest/gtest.h>

#include "colour/typed.hpp"

namespace farflung::colour {
namespace {

std::string said(const char* hex) { return words(*colour_from_typed(hex)); }

TEST(Words, NamesCommonColoursOfCloth) {
  EXPECT_EQ(said("#ffffff"), "white");
  EXPECT_EQ(said("#111111"), "black");
  EXPECT_EQ(said("#808080"), "grey");
  EXPECT_EQ(said("#c8c8c8"), "light grey");
  EXPECT_EQ(said("#404040"), "dark grey");
  EXPECT_EQ(said("#fff4d6"), "cream");
  EXPECT_EQ(said("#c8102e"), "red");
  EXPECT_EQ(said("#e07b20"), "orange");
  EXPECT_EQ(said("#f4d13a"), "yellow");
  EXPECT_EQ(said("#2e8b3d"), "green");
  EXPECT_EQ(said("#0b3d20"), "dark green");
  EXPECT_EQ(said("#1b8a8f"), "teal");
  EXPECT_EQ(said("#3a6ea5"), "blue");
  EXPECT_EQ(said("#14213d"), "dark blue");
  EXPECT_EQ(said("#a9cdee"), "light blue");
  EXPECT_EQ(said("#7b3fa0"), "purple");
  EXPECT_EQ(said("#f2a0b5"), "light pink");
  EXPECT_EQ(said("#7a4a21"), "brown");
}

}  // namespace
}  // namespace farflung::colour
