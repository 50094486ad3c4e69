// Light to dark across the top: what lightness each patch's place asks for, and how far a layout is from it.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"
#include "score/places.hpp"

namespace farflung::score {

/// The gradation goal in numbers. A print's rank is its place among all patches of the quilt by L*, 0 the darkest, 1
/// the lightest; a place asks for the rank that its part of the top has by the gradation's way. Each block counts
/// alike, and within a block each patch: the term is the mean of (rank - asked)^2.
class GradationGoal {
 public:
  GradationGoal() = default;
  GradationGoal(const quilt::Quilt& quilt, const setting::Plan& plan, const Places& places);

  /// The part of the term that `print` adds in a slot of a block of `pattern`, so turned, in a place. 0 for no print.
  double cost(int place, int pattern, Turn turn, int slot, int print) const;

  /// Of a whole block, its prints by slot.
  double cost(int place, int pattern, Turn turn, const std::vector<int>& prints) const;

 private:
  /// sum over a slot's patches of 1, asked, asked^2; over the patches of the block and the number of blocks.
  struct Asked {
    double count = 0, sum = 0, squares = 0;
  };
  std::size_t index(int place, int pattern, Turn turn, int slot) const;
  void rank_prints(const quilt::Quilt& quilt);

  int patterns_ = 0, slots_ = 0;
  std::vector<double> rank_;  ///< by print
  std::vector<Asked> asked_;
};

}  // namespace farflung::score
