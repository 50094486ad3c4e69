// What a step mends, in words.
#pragma once

#include <string>

#include "score/measure.hpp"
#include "swap/step.hpp"

namespace farflung::swap {

/// "R2 C5 with R6 C1: parts two Kelps, takes the dark out of the top left corner", "row 3 with row 5 (turn what comes
/// to row 5 half round): ...": what moves and how it is turned on the way; touches parted or made, by print; then the
/// largest of what else it changes: a region's cast, a row that reads as a stripe, the nearest copies of a print.
/// `before` and `after` are the layouts around the step.
std::string says_of(const score::Measure& measure, const Step& step, const setting::Arrangement& before,
                    const setting::Arrangement& after);

}  // namespace farflung::swap
