// Whether a pattern's patches cover its block exactly, and where they do not.
#pragma once

#include <string>

#include "block/pattern.hpp"

namespace farflung::block {

/// Adds a problem for each patch that is no polygon of cloth or leaves the block, for each gap and for each overlap,
/// with its place and size in inches. Differences within kSnap are none.
void check_cover(const Pattern& pattern, const std::string& at, Problems& problems);

}  // namespace farflung::block
