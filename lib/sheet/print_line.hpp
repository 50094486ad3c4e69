// A print as it is named in lists: a snip of its cloth, its code, its name.
#pragma once

#include <string>
#include <vector>

#include "sheet/book.hpp"

namespace farflung::sheet {

/// How wide add_print comes out.
double width_of_print(const quilt::Quilt& quilt, int print, double size);

/// A print's name in lines no wider than `width`, `most` of them. Where that is not enough it is cut short so that it
/// reads unlike the others': at its end, or else to the words in which it differs.
std::vector<std::string> name_within(const quilt::Quilt& quilt, int print, double size, double width, std::size_t most);

/// The lines of its name as add_print writes them.
std::vector<std::string> print_lines(const quilt::Quilt& quilt, int print, double size, double width, std::size_t most);

/// On one line, or on `most` lines `pitch` apart, cut short at `width` as name_within does it.
void add_print(draw::Display& display, const quilt::Quilt& quilt, int print, draw::Vec base_left, double size,
               double width, std::size_t most = 1, double pitch = 0);

}  // namespace farflung::sheet
