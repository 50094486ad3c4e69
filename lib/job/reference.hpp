// The printable sheet that makes photographs true to size and colour.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// It belongs to no quilt; with `force` an output that is there may be replaced.
struct ReferenceSheet {
  std::string output;            ///< a .pdf; "-" is standard output
  std::string paper = "letter";  ///< "letter" or "a4"
  bool force = false;
};

/// One page, to be printed at true size, not fitted to the paper.
Outcome reference_sheet(const ReferenceSheet& options);

}  // namespace farflung::job
