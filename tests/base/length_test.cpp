#include "base/length.hpp"

#include <gtest/gtest.h>

namespace farflung {
namespace {

TEST(Length, InchesAndMillimetresAgreeExactlyOnTheRuler) {
  for (int sixty_fourths = -6400; sixty_fourths <= 6400; ++sixty_fourths) {
    const double inches = sixty_fourths / 64.0;
    EXPECT_EQ(Length::inches(inches), Length::millimetres(25.4 * inches)) << inches;
  }
}

TEST(Length, SumsOfEighthsStayExact) {
  Length sum;
  for (int i = 0; i < 80'000; ++i) sum = sum + Length::inches(0.125);
  EXPECT_EQ(sum, Length::inches(10'000));
}

TEST(Length, IsOrderedByLength) {
  EXPECT_LT(Length::millimetres(25.3), Length::inches(1));
  EXPECT_GT(Length::millimetres(25.5), Length::inches(1));
}

}  // namespace
}  // namespace farflung
