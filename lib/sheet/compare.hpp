// Pictures to choose among, on paper.
#pragma once

#include <string>
#include <vector>

#include "draw/compare.hpp"
#include "sheet/book.hpp"

namespace farflung::sheet {

/// At most six to a page, in their order, at one scale on each page. Numbered as pages by themselves.
std::vector<Page> comparison(const Book& book, const std::string& title, const std::vector<draw::Exhibit>& exhibits);

}  // namespace farflung::sheet
