// From a quilt's layout to what each place holds, and back.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"
#include "score/pricer.hpp"

namespace farflung::arrange {

/// What each place of the model holds.
std::vector<score::Held> held_in(const quilt::Quilt& quilt, const score::Model& model);

/// Writes what each place holds into a layout.
void lay(const std::vector<score::Held>& held, const score::Model& model, setting::Arrangement& layout);

}  // namespace farflung::arrange
