// The shopping list as it is read: what differs in its print only stands in one line.
#pragma once

#include <string>
#include <vector>

#include "cloth/yardage.hpp"
#include "quilt/quilt.hpp"

namespace farflung::cloth {

/// One line, for every print of which the same is bought for the same part.
struct ShoppingLine {
  std::string what;         ///< "binding", "border 1", "blocks"; "more cloth" of a print that is not all in hand
  std::vector<int> prints;  ///< empty where no print is chosen, as of batting
  double each = 0;          ///< of every print
  double in_all = 0;
  std::string unit;  ///< "yd" or "m"
  std::string says;  ///< the working of one
};

/// The lines of `purchases`, in their order, each where the first of its prints stands.
std::vector<ShoppingLine> shopping_lines(const quilt::Quilt& quilt, const std::vector<Purchase>& purchases);

}  // namespace farflung::cloth
