// A log to tick: every block from cut to wall, every row, then the whole quilt.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// Tables with a box to tick at each step.
std::vector<Page> work_log(const Book& book);

}  // namespace farflung::sheet
