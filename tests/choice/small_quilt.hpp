// Quilts small enough to work out by hand.
#pragma once

#include "bundle.hpp"
#include "quilt/quilt.hpp"
#include "support/patterns.hpp"

namespace farflung::choice {

/// Six-inch squares of one print each, `columns` to a row, in the order given; the prints are `of`'s.
inline quilt::Quilt squares_quilt(std::vector<print::Print> of, int columns, const std::vector<int>& print_of_cell) {
  quilt::Quilt quilt;
  quilt.prints = std::move(of);
  quilt.patterns = {support::square()};
  quilt.setting.columns = columns;
  quilt.setting.rows = static_cast<int>(print_of_cell.size()) / columns;
  quilt.layout = setting::empty_arrangement(quilt.setting);
  for (std::size_t cell = 0; cell < print_of_cell.size(); ++cell) {
    block::Block block;
    block.id = "B" + std::to_string(cell);
    block.prints = {print_of_cell[cell]};
    quilt.blocks.push_back(block);
    quilt.layout.block[cell] = static_cast<int>(cell);
  }
  return quilt;
}

}  // namespace farflung::choice
