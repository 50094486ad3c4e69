#include "photo/least_squares.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace farflung::photo {
namespace {

TEST(LeastSquares, FollowsAValleyThatBends) {
  // Rosenbrock 1960, doi:10.1093/comjnl/3.3.175, from where he began.
  const Eigen::VectorXd found = least_squares_from(Eigen::Vector2d(-1.2, 1), [](const Eigen::VectorXd& n) {
    return Eigen::VectorXd(Eigen::Vector2d(10 * (n[1] - n[0] * n[0]), 1 - n[0]));
  });
  EXPECT_NEAR(found[0], 1, 1e-3);
  EXPECT_NEAR(found[1], 1, 2e-3);
}

TEST(LeastSquares, ExplainsACurveThroughPlacesThatAreOff) {
  // A decay by e in 2 steps from 3, each place a hundredth off, upward and downward by turns.
  const auto value = [](double from, double in, int at) { return from * std::exp(-at / in); };
  const Eigen::VectorXd found = least_squares_from(Eigen::Vector2d(1, 1), [&](const Eigen::VectorXd& n) {
    Eigen::VectorXd off(12);
    for (int i = 0; i < off.size(); ++i) off[i] = value(n[0], n[1], i) - value(3, 2, i) - (i % 2 == 0 ? 0.01 : -0.01);
    return off;
  });
  EXPECT_NEAR(found[0], 3, 0.02);
  EXPECT_NEAR(found[1], 2, 0.02);
}

TEST(LeastSquares, StaysWhereNothingIsBetter) {
  const Eigen::VectorXd found = least_squares_from(
      Eigen::Vector2d::Zero(), [](const Eigen::VectorXd& n) { return Eigen::VectorXd(n.array().cosh().matrix()); });
  EXPECT_NEAR(found.norm(), 0, 1e-3);
}

}  // namespace
}  // namespace farflung::photo
