// What to buy, with the working.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// What is not in hand, each with amount and working, a box to tick; then what was found enough, and how lengths were
/// rounded. Prints of one amount and working share a line. The book has its workroom.
std::vector<Page> shopping_list(const Book& book);

}  // namespace farflung::sheet
