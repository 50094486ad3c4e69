// What comes with the program: what a quilt is begun from, how cloth is sold, what can be printed.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// {"patterns": [{"id", "name", "width", "height", "turns", "slots": [...], "values": ["any", "light" ...],
///                "patches": [{"slot", "outline"}]}],
///  "sizes": [{"name", "width", "height", "note", "metric_note", "caution"}],
///  "cloth": {"inches", "metric": [{"kind", "many", "usable_width", "usable_length"}]}: as shops that measure so sell
///           it, the most usual first, the length of yardage null; `many` is what several are called,
///  "sheets": [{"name", "says"}]}, lengths in inches.
Outcome library();

}  // namespace farflung::job
