// The printed pages.
#pragma once

#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

struct Sheets {
  std::string folder;
  std::string output;             ///< a .pdf; "-" is standard output
  std::string paper = "letter";   ///< "letter" or "a4"
  std::vector<std::string> only;  ///< names of sheets; empty: all of them
  bool force = false;             ///< an output that is there may be replaced
};

Outcome sheets(const Sheets& options);

}  // namespace farflung::job
