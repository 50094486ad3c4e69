// Several layouts, sizes or choices side by side.
#pragma once

#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

struct Compare {
  std::string folder;
  std::vector<std::string>
      with;            ///< other quilts' folders, sizes ("lap", "60x72"), or a part and a print: "border=Kelp"
  std::string output;  ///< a .png or .svg
  bool force = false;
};

/// The quilt and each of the others side by side, at one scale.
Outcome compare(const Compare& options);

}  // namespace farflung::job
