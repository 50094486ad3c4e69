// Several pictures side by side on one, each with its caption: layouts, borders, sizes to choose among.
#pragma once

#include <string>
#include <vector>

#include "draw/display.hpp"

namespace farflung::draw {

/// One of the pictures to choose among.
struct Exhibit {
  Display display;
  std::string caption;             ///< "1  Nightwatch"
  std::vector<std::string> notes;  ///< a paragraph each, below the caption; may be empty
  std::string says;                ///< what is told who cannot see it; empty: the caption
};

/// The exhibits in rows on white, left to right, as large as they go within width x height (the sheet ends where they
/// do), all at one scale, so that a larger quilt looks larger. Words are at least `size` high; notes run on over
/// several lines, captions that are too long are cut short.
///
///   draw::Display sheet = draw::side_by_side(exhibits, 1600, 1200, 16);
Display side_by_side(const std::vector<Exhibit>& exhibits, double width, double height, double size);

}  // namespace farflung::draw
