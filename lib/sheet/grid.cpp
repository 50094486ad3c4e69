#include "sheet/grid.hpp"

#include <algorithm>

namespace farflung::sheet {
namespace {

void add_cut_lines(draw::Display& display, const draw::Box& all, int columns, int rows, double width, double height) {
  const auto line = [&](draw::Vec from, draw::Vec to) {
    display.add(draw::Line{{from, to}, 0.5, draw::kFaint, false, {2, 3}});
  };
  for (int column = 0; column <= columns; ++column) {
    const double x = all.left + column * width;
    line({x, all.top}, {x, all.top + rows * height});
  }
  for (int row = 0; row <= rows; ++row) {
    const double y = all.top + row * height;
    line({all.left, y}, {all.left + columns * width, y});
  }
}

}  // namespace

std::vector<Page> cards_in_grid(const Book& book, const CardGrid& grid,
                                const std::function<void(draw::Display&, int, const draw::Box&)>& draw_card) {
  const draw::Box room = room_of(book.paper);
  const int columns = std::max(1, static_cast<int>(room.width / grid.width + 1e-6));
  const int rows = std::max(1, static_cast<int>(room.height / grid.height + 1e-6));
  std::vector<Page> pages;
  for (int first = 0; first < grid.count; first += columns * rows) {
    const int count = std::min(columns * rows, grid.count - first);
    Page page = blank_page(book, grid.section, grid.part);
    const int used_rows = (count + columns - 1) / columns;
    const int used_columns = std::min(count, columns);
    const draw::Box all = {room.left + (room.width - columns * grid.width) / 2, room.top, columns * grid.width, 0};
    add_cut_lines(page.display, all, used_columns, used_rows, grid.width, grid.height);
    for (int i = 0; i < count; ++i) {
      const int row = i / columns;
      const int column = i % columns;
      draw_card(page.display, first + i,
                {all.left + column * grid.width, all.top + row * grid.height, grid.width, grid.height});
    }
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace farflung::sheet
