#include "photo/least_squares.hpp"

#include <unsupported/Eigen/NonLinearOptimization>

namespace farflung::photo {
namespace {

constexpr double kStep = 1e-4;       ///< of a number, over which slopes are taken
constexpr double kEnough = 1e-5;     ///< of the sum, that a step must better it by
constexpr double kNear = 1e-7;       ///< of the numbers, that a step must move them by
constexpr int kMostLooks = 60 * 30;  ///< at the residuals

/// As Eigen asks for what it makes least.
struct Problem {
  const Residuals& residuals;
  Eigen::Index many;

  Eigen::Index values() const { return many; }
  int operator()(const Eigen::VectorXd& at, Eigen::VectorXd& off) const {
    off = residuals(at);
    return 0;
  }
  int df(const Eigen::VectorXd& at, Eigen::MatrixXd& slopes) const {
    const Eigen::VectorXd off = residuals(at);
    Eigen::VectorXd moved = at;
    for (Eigen::Index i = 0; i < at.size(); ++i) {
      moved[i] = at[i] + kStep;
      slopes.col(i) = (residuals(moved) - off) / kStep;
      moved[i] = at[i];
    }
    return static_cast<int>(at.size()) + 1;
  }
};

}  // namespace

Eigen::VectorXd least_squares_from(const Eigen::VectorXd& start, const Residuals& residuals) {
  Eigen::VectorXd numbers = start;
  Problem problem{residuals, residuals(start).size()};
  Eigen::LevenbergMarquardt<Problem> search(problem);
  search.parameters.ftol = kEnough, search.parameters.xtol = kNear, search.parameters.maxfev = kMostLooks;
  search.minimize(numbers);
  return numbers;
}

}  // namespace farflung::photo
