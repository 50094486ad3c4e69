// How well one photograph was read.
#pragma once

#include <optional>
#include <vector>

#include "photo/take.hpp"
#include "simulator/photographer.hpp"

namespace farflung::photo_bench {

struct Reading {
  int there = 0;                ///< cloths in the photograph
  int found = 0;                ///< of them, found
  int sure = 0;                 ///< of those found, without a doubt
  int false_ones = 0;           ///< outlines where there is no cloth
  std::vector<double> off;      ///< of those found, the worst corner's error over the mean side
  std::vector<double> corners;  ///< of those found, every corner's error over the mean side
  std::vector<double> dE;       ///< of those found, dE00 of the mean colour
  std::vector<double> palette;  ///< of those found, transport from the true palette, dE00
  std::vector<double> scale;    ///< of those whose scale was measured, its error over the truth
  std::vector<double> inches;   ///< of those found beside a sheet, the error of their side in inches over the truth
  std::vector<double> far;      ///< the same of those more than kFar from it
  std::vector<double> stripe;   ///< of the stripes told as stripes, their angle's error, degrees
  int stripes = 0;              ///< of those found, how many are stripes
  int one_way = 0;              ///< of those found, how many stand one way
  int one_way_told = 0;         ///< of these, told as one-way
  int one_way_false = 0;        ///< of the others, told as one-way
  std::optional<double> tau;    ///< Kendall's, of the order of lightness; where six or more were found
};

constexpr double kFar = 30;  ///< inches from the sheet's middle

/// A cloth is found where the outlines share 85 % of what they cover. `scene` is what was photographed, `take` what
/// was read of it.
Reading read(const simulator::Scene& scene, const simulator::Photograph& truth, const photo::Take& take);

}  // namespace farflung::photo_bench
