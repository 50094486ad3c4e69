// The whole way through, on the quilt that comes with the program.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` is made, with the quilt, its photographs, the preview and the sheets in it.
struct Demo {
  std::string folder;
  bool force = false;  ///< a folder that is there is replaced if it holds a quilt
};

/// Makes the quilt, takes its photographs in, arranges it, draws the preview and the sheets; the words say where they
/// are.
Outcome demo(const Demo& options, const Watch& watch);

}  // namespace farflung::job
