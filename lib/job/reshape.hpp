// Another pattern, other rows and columns, on the same prints. For the sources of this module only.
#pragma once

#include <string>

#include "job/open_quilt.hpp"

namespace farflung::job {

/// `text` is a JSON object: "pattern", the id of one that comes with the program or a pattern as a quilt's file says
/// it; "rows"; "columns"; what it leaves out stays. The block keeps its width, the quilt its prints, sashing and
/// borders; blocks and layout begin anew, one block to a cell, their slots open.
Result<project::Document> reshaped(const project::Document& document, const std::string& text);

/// "Nine patch, 7 rows of 6."
std::string shape_words(const quilt::Quilt& quilt);

}  // namespace farflung::job
