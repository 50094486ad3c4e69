// A whole quilt as one file, to move or keep.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// `file` is a plain tar. Both say how many files; unpack makes `folder`, which must not be there. See
/// project/pack.hpp.
Outcome pack(const std::string& folder, const std::string& file, bool force);
Outcome unpack(const std::string& folder, const std::string& file);

}  // namespace farflung::job
