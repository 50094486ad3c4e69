// A row of the top as it is sewn.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// The row stretched out, left to right as it is sewn (diagonal rows laid level), a heavy line at each edge that is
/// sewn to the next, each block's place below it. In points.
draw::Display row_drawing(const Book& book, const cloth::SewingRow& row, double width, double height);

/// Its stack as it is picked up: the first block on top, of the others their right edges, a clip at the top edge.
draw::Display stack_drawing(const Book& book, const cloth::SewingRow& row, double width, double height);

}  // namespace farflung::sheet
