// The slip that goes along when the quilt is quilted by someone else.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// One page: the top as it lies, sizes at least, whether a print has an up, and lines to fill in by hand.
std::vector<Page> quilting_slip(const Book& book);

}  // namespace farflung::sheet
