#include "sheet/compare.hpp"

#include <algorithm>

namespace farflung::sheet {

std::vector<Page> comparison(const Book& book, const std::string& title, const std::vector<draw::Exhibit>& exhibits) {
  constexpr std::size_t kOnPage = 6;
  constexpr double kWords = 9;
  const draw::Box room = room_of(book.paper);
  std::vector<Page> pages;
  for (std::size_t first = 0; first < exhibits.size(); first += kOnPage) {
    const std::size_t last = std::min(exhibits.size(), first + kOnPage);
    Page page = blank_page(book, title);
    const std::vector<draw::Exhibit> shown(exhibits.begin() + static_cast<std::ptrdiff_t>(first),
                                           exhibits.begin() + static_cast<std::ptrdiff_t>(last));
    draw::place(page.display, draw::side_by_side(shown, room.width, room.height, kWords), {room.left, room.top}, 1);
    pages.push_back(std::move(page));
  }
  number_pages(book, pages);
  return pages;
}

}  // namespace farflung::sheet
