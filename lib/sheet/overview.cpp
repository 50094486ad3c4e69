#include "sheet/overview.hpp"

#include <algorithm>
#include <cmath>

#include "base/counted.hpp"
#include "draw/text.hpp"
#include "draw/top.hpp"

namespace farflung::sheet {
namespace {

constexpr double kGutter = 26;  ///< for names, on each side

/// The largest size at which names so far apart do not run into one another.
double name_size(const std::string& longest, double apart, bool across) {
  const double limit = across ? 0.82 * apart / draw::width_of(longest, 1, true) : 0.8 * apart;
  return std::min(10.0, limit);
}

}  // namespace

draw::Box add_named_top(draw::Display& display, const Book& book, const draw::Box& room) {
  const draw::Top top = draw::top_of(book.quilt, book.plan);
  const draw::Box inner = draw::fitted(top.display.width, top.display.height, room.inset(kGutter));
  const double scale = inner.width / top.display.width;
  const std::string says =
      "The whole top, " + draw::finished_size(book.quilt, book.plan) + ", " + counted(book.plan.cells.size(), "place");
  add_figure(display, says, top.display, {inner.left, inner.top}, scale);
  draw::add_cell_marks(display, book.plan, draw::Vec{inner.left, inner.top} + scale * top.corner, scale, book.marks);

  int rows = 0, columns = 0;
  Length right, foot, left = book.plan.width, head = book.plan.height;  // of the cells' centres
  for (const setting::Cell& cell : book.plan.cells) {
    rows = std::max(rows, cell.row + 1);
    columns = std::max(columns, cell.column + 1);
    left = std::min(left, cell.centre.x), right = std::max(right, cell.centre.x);
    head = std::min(head, cell.centre.y), foot = std::max(foot, cell.centre.y);
  }
  const double across = columns > 1 ? scale * (right - left).inches() / (columns - 1) : inner.width;
  const double down = rows > 1 ? scale * (foot - head).inches() / (rows - 1) : inner.height;
  const double size =
      std::min(name_size(column_name(columns - 1), across, true), name_size(row_name(rows - 1), down, false));
  const auto name = [&](const std::string& words, draw::Vec at, draw::Anchor anchor) {
    display.add(draw::Text{words, at, size, anchor, true, draw::kInk, draw::Role::name});
  };
  const bool offset = book.quilt.setting.kind != setting::Setting::Kind::straight;
  for (const setting::Cell& cell : book.plan.cells) {
    const draw::Vec centre = draw::Vec{inner.left, inner.top} +
                             scale * (top.corner + draw::Vec{cell.centre.x.inches(), cell.centre.y.inches()});
    const double middle = centre.y + draw::kCapHeight * size / 2;
    if (cell.column == 0) {
      name(row_name(cell.row), {inner.left - 6, middle}, draw::Anchor::right);
      name(row_name(cell.row), {inner.right() + 6, middle}, draw::Anchor::left);
    }
    if (cell.row == 0) name(column_name(cell.column), {centre.x, inner.top - 6}, draw::Anchor::middle);
    if (cell.row == (offset ? 1 : rows - 1)) {
      name(column_name(cell.column), {centre.x, inner.bottom() + 6 + draw::kCapHeight * size}, draw::Anchor::middle);
    }
  }
  return inner;
}

}  // namespace farflung::sheet
