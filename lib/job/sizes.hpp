// How many blocks make each of the common sizes, and what that takes.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

Outcome sizes(const std::string& folder);

}  // namespace farflung::job
