// Templates at true scale for what a ruler does not cut: triangles and odd shapes.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// One shape that some patches of one pattern share, if need be turned or turned over.
struct Template {
  int pattern = 0;
  std::string name;                ///< "T1" ...
  std::vector<std::string> slots;  ///< those it is cut for
  int count = 0;                   ///< in each block, as drawn
  int reversed = 0;                ///< in each block, turned over
  Polygon sewing;                  ///< the finished shape, corners clockwise, its box's corner at the origin
  Polygon cutting;                 ///< with its seam allowance, in the same place
};

/// Every shape of the patterns in use that is no square or rectangle along the block, patterns in order.
std::vector<Template> templates_of(const quilt::Quilt& quilt);

/// The templates at true scale with cutting and sewing line, notches at the middle of each side, the way of the
/// straight grain, and on each page a square of one inch to check the printer by. What is larger than the paper is
/// printed in parts that lap by a quarter of an inch, with crosses that come to lie on each other; small parts share a
/// page. No page where no shape needs one.
std::vector<Page> templates(const Book& book);

}  // namespace farflung::sheet
