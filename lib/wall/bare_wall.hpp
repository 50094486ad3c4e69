// What the wall itself looks like beside the blocks: by it an empty place is told from a pale block. Internal to wall.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "wall/evidence.hpp"

namespace farflung::wall {

/// The bare wall as its light changes from one side to the other, learnt from a band round the blocks.
class BareWall {
 public:
  /// None where too little of the wall is to be seen, or where it is too uneven to tell anything by.
  static std::optional<BareWall> from(const std::vector<Stretch>& band);

  /// How unlike the wall a cell's patch is, as Light::misfit says how unlike a print it is.
  double misfit(const Evidence& evidence, int cell, int patch) const;

 private:
  static constexpr int kLearnt = kColours + kSpreads;
  std::array<std::array<double, 3>, kLearnt> plane_{};  ///< by look: at the box's middle, rightwards, downwards
  std::array<double, kLearnt> variance_{};
};

}  // namespace farflung::wall
