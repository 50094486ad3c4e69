// When the eye tells two cloths apart.
#pragma once

#include <cmath>

#include "colour/lab.hpp"

namespace farflung::choice {

/// CIEDE2000 under which two prints are hardly told apart across a room.
constexpr double kLikeness = 10;

/// CIE C*: how far from grey.
inline double chroma(const colour::Lab& lab) { return std::hypot(lab.a, lab.b); }

}  // namespace farflung::choice
