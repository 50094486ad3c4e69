// The key of prints: code, name, swatch, how many of each; and the usual cautions.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// All prints of the quilt in its order, two columns to a page; the cautions stand on the last.
std::vector<Page> key_of_prints(const Book& book);

/// Where a print goes.
struct Use {
  int blocks = 0;  ///< on the wall and spare
  int pieces = 0;  ///< patches in those blocks
  /// "sashing", "binding" ...; "border" where there is one, else "border 1" from the inside.
  std::vector<std::string> frame;
};
/// By print of the quilt, spares counted.
std::vector<Use> uses_of(const Book& book);

}  // namespace farflung::sheet
