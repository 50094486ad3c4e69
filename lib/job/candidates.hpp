// Candidates for a part of the quilt, ranked, with reasons and a picture of the first six.
#pragma once

#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

struct TryOut {
  std::string folder;
  std::string as;  ///< "background", "accent", "sashing", "setting", "border", "binding", "backing"
  std::vector<std::string> photographs;  ///< of candidates that are not in the quilt; none: the quilt's own prints
  std::string output;                    ///< a .png or .svg of the first six on the quilt; empty: none
  bool force = false;
};

/// Ranks; changes nothing.
Outcome try_candidates(const TryOut& options);

}  // namespace farflung::job
