// How to bring the wall to the plan. For the sources of this module only.
#pragma once

#include <string>

#include "job/open_quilt.hpp"
#include "wall/read.hpp"

namespace farflung::job {

/// The fewest swaps from what was read to what is planned, in words and as the report's "swaps"; a step that rests on a
/// place that is not sure says so. Where blocks were seen nowhere, the others are brought home around their empty
/// places, which wait for them: "" where something else lies in one, or where the wall is as planned.
std::string add_way_back(Report& report, const quilt::Quilt& planned, const quilt::Quilt& as_read,
                         const wall::WallRead& read);

}  // namespace farflung::job
