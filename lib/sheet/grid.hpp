// Pages that are cut apart: equal cards in a grid, with dotted lines to cut along.
#pragma once

#include <functional>

#include "sheet/book.hpp"

namespace farflung::sheet {

/// What is drawn on the cards, how large each is, and how many there are.
struct CardGrid {
  std::string section, part;
  double width = 0, height = 0;  ///< of one card, points
  int count = 0;
};

/// As many cards to a page as fit, each drawn by `draw_card(display, index, box)` within its own box.
std::vector<Page> cards_in_grid(const Book& book, const CardGrid& grid,
                                const std::function<void(draw::Display&, int, const draw::Box&)>& draw_card);

}  // namespace farflung::sheet
