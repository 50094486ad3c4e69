// Numbers that explain best what is seen, where what they explain bends with them.
#pragma once

#include <functional>

#include <Eigen/Core>

namespace farflung::photo {

/// What is off at some numbers; as many each time, and at least as many as there are numbers.
using Residuals = std::function<Eigen::VectorXd(const Eigen::VectorXd&)>;

/// From `start`, the numbers at which the residuals' squares sum to least: Levenberg's and Marquardt's method as
/// MINPACK has it (Moré 1978, doi:10.1007/BFb0067700), in Eigen. Slopes are differences over 1e-4 of a number, so
/// numbers should be of the size of 1, or so should what they usually stray by. It ends where a step betters the sum by
/// less than 1e-5 of it.
Eigen::VectorXd least_squares_from(const Eigen::VectorXd& start, const Residuals& residuals);

}  // namespace farflung::photo
