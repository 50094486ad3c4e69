#include "colour/typed.hpp"

#include <gtest/gtest.h>

namespace farflung::colour {
namespace {

TEST(TypedColour, ReadsHexLongAndShort) {
  EXPECT_EQ(hex(*colour_from_typed("#3a6ea5")), "#3a6ea5");
  EXPECT_EQ(hex(*colour_from_typed(" 3A6EA5 ")), "#3a6ea5");
  EXPECT_EQ(hex(*colour_from_typed("#36a")), "#3366aa");
}

TEST(TypedColour, ReadsLabBySpacesOrCommas) {
  const Lab kelp{52.1, -14, 8.2};
  for (const char* text : {"52.1 -14 8.2", "52.1, -14, 8.2", "52.1,-14,8.2", "lab(52.1 -14 8.2)"}) {
    const auto lab = colour_from_typed(text);
    ASSERT_TRUE(lab.ok()) << text;
    EXPECT_EQ(*lab, kelp) << text;
  }
}

TEST(TypedColour, SaysWhatToTypeInstead) {
  for (const char* text :
       {"", "#12345", "kelp", "1 2", "1 2 3 4", "#gggggg", "50 10 10x", "120 0 0", "50 0 500", "nan 0 0"}) {
    const auto lab = colour_from_typed(text);
    ASSERT_FALSE(lab.ok()) << text;
    EXPECT_FALSE(lab.problems()[0].remedy.empty());
  }
}

}  // namespace
}  // namespace farflung::colour
