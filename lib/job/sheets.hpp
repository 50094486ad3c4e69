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
  std::string paper;              ///< "letter" or "a4"; empty: as the quilt is measured
  std::vector<std::string> only;  ///< names of sheets; empty: all of them
  WorkroomWish how;               ///< cutting, buying, kits
  bool left_handed = false;       ///< cutting plans start from the right edge
  bool force = false;             ///< an output that is there may be replaced
};

/// What `only` may name, and what each sheet holds, as a paragraph.
std::string sheets_by_name();

/// Blocks not pressed yet are shown pressed so that most seam ends nest. Changes nothing.
Outcome sheets(const Sheets& options);

}  // namespace farflung::job
