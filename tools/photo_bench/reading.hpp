// How well one photograph was read.
#pragma once

#include <vector>

#include "photo/take.hpp"
#include "simulator/photographer.hpp"

namespace farflung::photo_bench {

struct Reading {
  int there = 0;            ///< cloths in the photograph
  int found = 0;            ///< of them, found
  int sure = 0;             ///< of those found, without a doubt
  int false_ones = 0;       ///< outlines where there is no cloth
  std::vector<double> off;  ///< of those found, the worst corner's error over the mean side
  std::vector<double> dE;   ///< of those found, dE00 of the mean colour
};

/// A cloth is found where the outlines share 85 % of what they cover.
Reading read(const simulator::Photograph& truth, const std::vector<photo::Swatch>& swatches);

}  // namespace farflung::photo_bench
