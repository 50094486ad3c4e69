// How many blocks make each of the common sizes, and what that takes.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// Cloth is of the blocks alone, as fat quarters or yardage, never understated. Changes nothing.
Outcome sizes(const std::string& folder);

}  // namespace farflung::job
