// A picture of the top.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt.
struct Preview {
  std::string folder;
  std::string output;  ///< ends in .png or .svg; "-" is standard output, as PNG
  int width = 1600;    ///< pixels
  bool grey = false;   ///< values only
  std::string layout;  ///< of a layout kept by this name; empty: as it lies
  bool force = false;  ///< an output that is there may be replaced
};

/// Swatches that cannot be read are problems in the answer; their prints are drawn in one colour. Changes nothing.
Outcome preview(const Preview& options);

}  // namespace farflung::job
