// Fills that a grey photocopy keeps apart.
#pragma once

#include "draw/display.hpp"

namespace farflung::sheet {

/// The outline in white, ruled in the way of this number: 0 is plain, then slanting, the other way, level, upright,
/// crossed twice; from 6 on they come again, closer. `spacing` in points.
void add_hatched(draw::Display& display, const draw::Outline& outline, int way, double spacing = 5);

}  // namespace farflung::sheet
