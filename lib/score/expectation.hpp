// Closed forms: the mean over all shuffles of a sum over pairs of places.
#pragma once

#include <span>
#include <vector>

#include "score/kernel.hpp"
#include "score/places.hpp"

namespace farflung::score {

/// A kernel summed over the places of each class and of each two classes.
struct ClassSums {
  std::vector<double> diagonal;  ///< by class: sum of K(i, i)
  std::vector<double> pairs;     ///< by class, class: sum of K(i, j) over i != j
};

/// A place stands in one class; those of no class count for nothing.
ClassSums class_sums(const Kernel& kernel, const std::vector<std::vector<int>>& places_of_class);

/// A number that each block carries, summed over the blocks of a class.
struct Moments {
  double blocks = 0;  ///< how many
  double sum = 0;
  double squares = 0;
};

/// The mean over all shuffles of sum over i, j of K(i, j) u_i u_j, u the numbers of the blocks that lie in i and j:
/// within a class two places hold two different blocks, all pairs equally likely; classes are independent of each
/// other.
double expected_form(const ClassSums& kernel, std::span<const Moments> moments);

}  // namespace farflung::score
