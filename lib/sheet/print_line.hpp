// A print as it is named in lists: a snip of its cloth, its code, its name.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// How wide add_print comes out.
double width_of_print(const quilt::Quilt& quilt, int print, double size);

/// On one line, cut short at `width`; returns where it ends.
double add_print(draw::Display& display, const quilt::Quilt& quilt, int print, draw::Vec base_left, double size,
                 double width);

}  // namespace farflung::sheet
