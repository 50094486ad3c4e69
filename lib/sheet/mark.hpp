// A square mark that a camera finds: black cells on the paper's white.
#pragma once

#include <functional>

#include "draw/display.hpp"

namespace farflung::sheet {

/// Draws a mark of `cells` x `cells` cells, each `side` points wide, its top left corner at `corner`. Black cells that
/// lie side by side are one area: no hair of white between them.
void add_mark(draw::Display& display, std::size_t cells,
              const std::function<bool(std::size_t row, std::size_t column)>& black, draw::Vec corner, double side);

}  // namespace farflung::sheet
