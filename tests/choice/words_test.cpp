#include "choice/words.hpp"

#include <gtest/gtest.h>

namespace farflung::choice {
namespace {

TEST(LengthWords, AreInTheUnitsOfTheQuilt) {
  const Length length = Length::millimetres(50);
  EXPECT_EQ(length_words(length, quilt::Units::millimetres), "50 mm");
  EXPECT_EQ(length_words(length, quilt::Units::centimetres), "5 cm");
  EXPECT_EQ(length_words(Length::inches(3.5), quilt::Units::inches), "3 1/2 in");
}

}  // namespace
}  // namespace farflung::choice
