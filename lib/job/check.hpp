// Validates, scores, explains.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// The problems of a sick file come in the answer, with as much of the report as can be made.
Outcome check(const std::string& folder);

}  // namespace farflung::job
