// The printable sheet that makes photographs true to size and colour.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

struct ReferenceSheet {
  std::string output;            ///< a .pdf; "-" is standard output
  std::string paper = "letter";  ///< "letter" or "a4"
  bool force = false;
};

Outcome reference_sheet(const ReferenceSheet& options);

}  // namespace farflung::job
