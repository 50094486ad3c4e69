// The page that makes photographs true to size and colour, as it is printed.
#pragma once

#include "sheet/book.hpp"
#include "sheet/paper.hpp"

namespace farflung::sheet {

/// The reference sheet on one page, its marks and check lines where photo::sheet_plan has them, at true size.
Page reference_page(const Paper& paper);

}  // namespace farflung::sheet
