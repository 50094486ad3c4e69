// Cells that want a look, marked over the picture of a top.
#pragma once

#include <string>
#include <vector>

#include "draw/display.hpp"
#include "setting/plan.hpp"

namespace farflung::draw {

/// A ring about one cell of the plan, and a word or two in it.
struct CellMark {
  enum class Kind {
    wrong,   ///< an unbroken ring
    unsure,  ///< a broken ring
  };

  int cell = 0;
  Kind kind = Kind::wrong;
  std::string words;  ///< a few on a plate: "to R5 C2"; may be empty
};

/// Rings of dark within white, so that they show on any cloth and on a grey photocopy. The top's corner (0, 0) lies at
/// `corner` on the display, `scale` units to the inch.
void add_cell_marks(Display& display, const setting::Plan& plan, Vec corner, double scale,
                    const std::vector<CellMark>& marks);

/// One ring about an outline and its plate, low in the box about it.
void add_cell_mark(Display& display, const Outline& outline, CellMark::Kind kind, const std::string& words);

}  // namespace farflung::draw
