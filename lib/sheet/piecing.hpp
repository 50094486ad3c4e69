// How blocks are pieced.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// For each pattern in use: a test block first, each kind of unit as a diagram with what it is trimmed to and which way
/// it is pressed; then the chains, by pairs of prints, how many, a box to tick. The book has its workroom.
std::vector<Page> piecing(const Book& book);

}  // namespace farflung::sheet
