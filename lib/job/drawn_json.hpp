// The parts of what a screen draws. For the sources of this module only.
#pragma once

#include "draw/shapes.hpp"
#include "job/open_quilt.hpp"

namespace farflung::job {

/// Block, turn, kept and sewn by cell, as job/drawn.hpp says.
Report layout_json(const quilt::Quilt& quilt);

/// By block, by patch: the print's place in the quilt's list, null where it is not dealt yet.
Report prints_by_patch(const quilt::Quilt& quilt);

/// How each is pieced, lengths in inches.
Report patterns_json(const std::vector<block::Pattern>& patterns);

/// [[x, y], ...], in the units of the outline.
Report points_json(const draw::Outline& outline);

}  // namespace farflung::job
