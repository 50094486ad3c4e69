// Another pattern, another setting, other rows and columns, another size of block, on the same prints. For the sources
// of this module only.
#pragma once

#include <string>

#include "job/open_quilt.hpp"

namespace farflung::job {

/// `text` is a JSON object: "pattern", the id of one that comes with the program or is the quilt's own, a pattern as a
/// quilt's file says it, or a list of such that take turns over the cells; "kind": straight, brick or on point; "rows";
/// "columns"; "block", the finished width of a block, "9 1/2" or "24 cm"; what it leaves out stays, and the quilt keeps
/// its prints, sashing and borders. Blocks that are sewn are as large as they are: then another "block" is refused. Of
/// another pattern blocks and layout begin anew, one block to a cell, their slots open. In another size what lies where
/// there still is a place stays as it lies; places that are new take the blocks that lost theirs, then new ones; of
/// what is left over the sewn blocks become spares, the others go.
Result<project::Document> reshaped(const project::Document& document, const std::string& text);

/// "Nine patch, 7 rows of 6."
std::string shape_words(const quilt::Quilt& quilt);

}  // namespace farflung::job
