// Places in a photograph as people type them. For the sources of this module only.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "base/result.hpp"
#include "photo/take.hpp"

namespace farflung::job {

/// "12, 3.5": pixels of the upright photograph; none where it is anything else.
std::optional<std::array<double, 2>> place_typed(const std::string& text);

/// "x,y,x,y,x,y,x,y"; else a problem that names --corners.
Result<photo::Corners> corners_typed(const std::string& text);

}  // namespace farflung::job
