// Angles, which people give in degrees.
#pragma once

#include <numbers>

namespace farflung::draw {

inline double radians(double degrees) { return degrees * std::numbers::pi / 180; }

}  // namespace farflung::draw
