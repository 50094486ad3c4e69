// The slip that goes along when the quilt is quilted by someone else.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

std::vector<Page> quilting_slip(const Book& book);

}  // namespace farflung::sheet
