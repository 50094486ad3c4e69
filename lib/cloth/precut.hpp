// Squares and strips that are sold cut to size, taken for their finished size.
#pragma once

#include <string>
#include <vector>

#include "cloth/pieces.hpp"

namespace farflung::cloth {

/// "A charm square is cut 5 in wide, seam allowances and all: what it gives finishes at 4 1/2 in, not at 5 in.": for
/// each such kind of which there is nothing else of a print in hand, where a piece of that print finishes so wide that
/// the allowances alone keep it from being cut.
std::vector<std::string> precuts_said(const quilt::Quilt& quilt, const CutList& list);

}  // namespace farflung::cloth
