// Threads ranked by how little, or how much, they show, and drawn on the quilt.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt; with `force` an output that is there may be replaced.
struct TryThread {
  std::string folder;
  std::string from;              ///< a table of threads; empty: the forty that come with the program
  bool show = false;             ///< the thread is to show, not to blend
  std::string style = "loops";   ///< of the quilting: "lines", "waves", "loops", "pebbles"
  std::string spacing = "2 in";  ///< between its lines
  double factor = 1.4;           ///< thread for each length of path
  std::string output;            ///< a .png, .svg or .pdf of the first three on the quilt; empty: none
  std::string paper;             ///< of a PDF; empty: as the quilt is measured
  bool force = false;
};

/// Ranks, for the top and for the back, and says how much thread the quilting takes. Changes nothing.
Outcome try_threads(const TryThread& options);

}  // namespace farflung::job
