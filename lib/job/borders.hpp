// Border widths that make the top reach a size.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt; with `force` an output that is there may be replaced.
struct Borders {
  std::string folder;
  std::string size;    ///< to reach: a name from the table of sizes, or width x height: "60x72"
  std::string step;    ///< widths are whole multiples of it; empty: 1/4 in, or 5 mm of a metric quilt
  int accept = 0;      ///< which of the ways, from 1, the quilt takes; 0: none, nothing is changed
  std::string output;  ///< a .png, .svg or .pdf of the ways side by side; empty: none
  std::string paper;   ///< of a PDF; empty: as the quilt is measured
  bool force = false;
};

/// The ways that choice::borders_to_reach finds; saves only what is accepted.
Outcome borders(const Borders& options);

}  // namespace farflung::job
