#pragma once

#include <stdexcept>
#include <string>

#include "base/result.hpp"

namespace farflung::fuzz {

inline void promise(bool kept, const std::string& what) {
  if (!kept) throw std::logic_error("promise not kept: " + what);
}

/// Whatever was refused was refused with a reason.
inline void promise_reasons(const Problems& problems) {
  promise(!problems.empty(), "a refusal has a problem");
  for (const Problem& problem : problems) promise(!problem.cause.empty(), "a problem has a cause");
}

}  // namespace farflung::fuzz
