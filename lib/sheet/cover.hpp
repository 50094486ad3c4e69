// The first page: the quilt, its size, what it is made of.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// One page: title, the top as large as it goes, the facts below.
std::vector<Page> cover(const Book& book);

/// What the quilt is made of, as label and words: "Blocks", "63 of 9 x 9 in: Uneven rails".
struct Fact {
  std::string what, says;
};
/// In the order in which they stand on the cover; parts that the quilt lacks are left out.
std::vector<Fact> facts_of(const Book& book);

}  // namespace farflung::sheet
