// The calls to the system that saving and packing make, any one of which can be made to fail.
#pragma once

#include <cerrno>
#include <string>

namespace farflung::project {

/// Counts down over the calls of this program; the one at which it reaches zero fails, once.
struct Failure {
  int calls_until = 0;  ///< 0: none fails
  int error = ENOSPC;
  bool all = false;         ///< reading, making folders and closing count as well, not only what changes files
  std::string failed = {};  ///< the call that was failed
};

/// Begin by setting it; `calls_until` is 0 again once it has struck.
extern Failure failure;

}  // namespace farflung::project
