// Candidates for a part of the quilt, ranked, with reasons and a picture of the first six.
#pragma once

#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt; with `force` an output that is there may be replaced.
struct TryOut {
  std::string folder;
  std::string as;  ///< "background", "accent", "sashing", "setting", "border", "binding", "backing"
  int border = 0;  ///< which border, counted from the inside from 1; 0: the outermost
  std::vector<std::string> photographs;  ///< of candidates that are not in the quilt, folders of them, or other quilts'
                                         ///< folders; none: the quilt's own prints
  bool left_over = false;                ///< of the quilt's own prints only those that lie nowhere in it
  std::string output;                    ///< a .png, .svg or .pdf of the first six on the quilt; empty: none
  std::string paper;                     ///< of a PDF; empty: as the quilt is measured
  bool force = false;
};

/// Ranks; changes nothing.
Outcome try_candidates(const TryOut& options);

}  // namespace farflung::job
