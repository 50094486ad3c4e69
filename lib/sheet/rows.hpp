// From blocks to a top.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// Which blocks are pressed as drawn and which the other way, in two piles and on a plan of the wall. The book has its
/// workroom.
std::vector<Page> pressing(const Book& book);

/// Each row with its stack as it is picked up, C1 on top, the edges that are sewn, where the clip goes; how rows, or
/// sections, are joined. The book has its workroom.
std::vector<Page> sewing_rows(const Book& book);

}  // namespace farflung::sheet
