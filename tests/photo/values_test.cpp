#include "photo/values.hpp"

#include <gtest/gtest.h>

namespace farflung::photo {
namespace {

TEST(Values, TheMeanOfAFunctionOverThePixels) {
  Values values;
  EXPECT_TRUE(values.empty());
  values.add(0.25, 0.5), values.add(0.701, 0.5);
  Values::Table same{};
  for (std::size_t i = 0; i <= Values::kSteps; ++i) same[i] = static_cast<double>(i) / Values::kSteps;
  EXPECT_FALSE(values.empty());
  EXPECT_NEAR(values.mean(same), 0.4755, 1e-12);
  Values::Table squares = same;
  for (double& x : squares) x *= x;
  EXPECT_NEAR(values.mean(squares), (0.25 * 0.25 + 0.701 * 0.701) / 2, 2e-4);
  EXPECT_NEAR(values.mean(squares, 0.5), (0.36275 * 0.36275 + 0.58825 * 0.58825) / 2, 2e-4);
}

}  // namespace
}  // namespace farflung::photo
