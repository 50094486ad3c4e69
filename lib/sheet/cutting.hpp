// What to cut, and where on the cloth.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// The cut list print by print, a box to tick at each line; then, for each set of prints that are cut alike, the plan
/// to scale with numbered cuts, how many layers, what is left over, and whether the cloth is enough. The book has its
/// workroom.
std::vector<Page> cutting(const Book& book);

/// One plan drawn to scale: pieces hatched and lettered, cuts numbered in their order, left-over named.
struct PlanDrawing {
  draw::Display display;  ///< points
  std::string says;
};
/// As large as goes within width x height, in points. The book has its workroom.
PlanDrawing drawing_of(const Book& book, const cloth::PrintPlan& plan, const cloth::SheetPlan& sheet, double width,
                       double height);

}  // namespace farflung::sheet
