// The placement map: which block hangs where, to be read from the floor, the ladder and a grey photocopy.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// The whole top on one page, row and column names around it; then three rows or so to a page, no cell ever split.
std::vector<Page> placement_map(const Book& book);

}  // namespace farflung::sheet
