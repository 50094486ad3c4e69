// Several layouts, sizes or choices side by side.
#pragma once

#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt; with `force` an output that is there may be replaced.
struct Compare {
  std::string folder;
  /// Other quilts' folders, sizes ("lap", "60x72"), settings ("brick", "on point"), or a part and a print:
  /// "border=Kelp".
  std::vector<std::string> with;
  std::string output;  ///< a .png, .svg or .pdf
  std::string paper;   ///< of a PDF; empty: as the quilt is measured
  bool force = false;
};

/// The quilt and each of the others side by side, at one scale.
Outcome compare(const Compare& options);

}  // namespace farflung::job
