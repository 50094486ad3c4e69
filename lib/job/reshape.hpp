// Another pattern, other rows and columns, on the same prints. For the sources of this module only.
#pragma once

#include <string>

#include "job/open_quilt.hpp"

namespace farflung::job {

/// `text` is a JSON object: "pattern", the id of one that comes with the program or a pattern as a quilt's file says
/// it; "rows"; "columns"; what it leaves out stays. The block keeps its width, the quilt its prints, sashing and
/// borders. Of another pattern blocks and layout begin anew, one block to a cell, their slots open. In another size
/// what lies where there still is a place stays as it lies; places that are new take the blocks that lost theirs, then
/// new ones; of what is left over the sewn blocks become spares, the others go.
Result<project::Document> reshaped(const project::Document& document, const std::string& text);

/// "Nine patch, 7 rows of 6."
std::string shape_words(const quilt::Quilt& quilt);

}  // namespace farflung::job
