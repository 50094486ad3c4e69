// Cards that are cut apart: names to hang along the wall, marks for its corners, labels to pin on blocks, snips to
// glue.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// A card for each row, to hang at the left of the wall, and each place, to hang above (and, where rows are offset,
/// below) it.
std::vector<Page> wall_cards(const Book& book);

/// Four cards with photo::corner_cards' marks, to pin at the corners of the blocks before the wall is photographed.
std::vector<Page> corner_marks(const Book& book);

/// A label for each block, spares last: row and place, block, print codes, the edge that is up, "remove before
/// ironing". They are as large as the largest patch of the block takes, clear of its seams, within 1.5 to 2.5 in.
std::vector<Page> block_labels(const Book& book);

/// A card for each print, with room to glue a snip of it beside its code.
std::vector<Page> snip_cards(const Book& book);

}  // namespace farflung::sheet
