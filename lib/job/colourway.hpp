// The same layout in other prints.
#pragma once

#include <string>
#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt; with `force` an output that is there may be replaced.
struct Colourway {
  std::string folder;
  std::string replace;              ///< a print of the quilt by id, code or name; empty: every print in use
  std::vector<std::string> bundle;  ///< what comes instead: photographs, folders of them, other quilts' folders; none:
                                    ///< the quilt's own prints, for a print that is replaced
  std::string by;                   ///< of those only the print of this id, code or name
  int accept = 0;                   ///< which of the list, from 1, the quilt takes; 0: none, nothing is changed
  std::string output;               ///< a .png, .svg or .pdf of it beside the quilt as it is; empty: none
  std::string paper;                ///< of a PDF; empty: as the quilt is measured
  bool force = false;
};

/// Stand-ins for one print, ranked; or all prints matched value for value by a second bundle.
Outcome colourway(const Colourway& options);

}  // namespace farflung::job
