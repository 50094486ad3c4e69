// What comes with the program to begin a quilt from.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// {"patterns": [{"id", "name", "width", "height", "turns", "slots": [...], "patches": [{"slot", "outline"}]}],
///  "sizes": [{"name", "width", "height", "note", "metric_note", "caution"}]}, lengths in inches.
Outcome library();

}  // namespace farflung::job
