// The prints of the bundle that work best together.
#pragma once

#include <cstdint>
#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt; with `force` an output that is there may be replaced.
struct Choose {
  std::string folder;
  int take = 0;
  std::vector<std::string> keep, drop;  ///< prints by id, code or name
  double lively = 0.5;                  ///< 0 calm: hues held together .. 1 lively: hues spread
  std::uint64_t seed = 1;
  std::string output;  ///< a .png, .svg or .pdf of the sets side by side; empty: none
  std::string paper;   ///< of a PDF; empty: as the quilt is measured
  bool force = false;
};

/// What `choose` makes small, in words, for the help.
std::string choose_measure();

/// Ranks; changes nothing.
Outcome choose(const Choose& options);

}  // namespace farflung::job
