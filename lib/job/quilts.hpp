// What a list of quilts says of each.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// Title, finished size, blocks, cells, prints, whether anything is laid; of a sick file its problems.
Outcome summary(const std::string& folder);

/// The quilt as its file holds it, byte for byte what quilt.json says.
Result<std::string> quilt_text(const std::string& folder);

}  // namespace farflung::job
