// What a class has to bring, by the part a print plays.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// "six lights, four darks, one accent", and how much of each; changes nothing.
Outcome supplies(const std::string& folder);

}  // namespace farflung::job
