// The tree that holds a quilt. For the sources of this module only.
#pragma once

#include "project/json.hpp"
#include "quilt/quilt.hpp"

namespace farflung::project {

/// The quilt as a tree, laid over the tree it was read from (null where there is none):
///   - what did not change stands as it was written ("2 1/2" stays "2 1/2", a default that was written out stays),
///   - keys that are not ours stay; those of a print, pattern or block move with it, by its id,
///   - what is at its default is written only where it was before,
///   - keys stand in the order of the format, the others after them.
Json json_from_quilt(const quilt::Quilt& quilt, const Json& original);

}  // namespace farflung::project
