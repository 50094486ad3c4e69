// The printed pages.
#pragma once

#include <vector>

#include "job/answer.hpp"
#include "job/workroom.hpp"

namespace farflung::job {

/// `folder` holds the quilt.
struct Sheets {
  std::string folder;
  std::string output;             ///< a .pdf; "-" is standard output
  std::string paper = "letter";   ///< "letter" or "a4"
  std::vector<std::string> only;  ///< names of sheets; empty: all of them
  WorkroomWish how;               ///< cutting, buying, kits
  bool left_handed = false;       ///< cutting plans start from the right edge
  bool force = false;             ///< an output that is there may be replaced
};

/// Blocks not pressed yet are shown pressed so that most seam ends nest. Changes nothing.
Outcome sheets(const Sheets& options);

}  // namespace farflung::job
