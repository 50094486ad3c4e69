// The whole top with the names of its rows and places around it.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// Draws the top into the room, as large as it goes with its names; returns where the picture came to lie. In settings
/// whose rows are offset, the shorter rows' places are named below.
draw::Box add_named_top(draw::Display& display, const Book& book, const draw::Box& room);

}  // namespace farflung::sheet
