#include "draw/text.hpp"
#include "sheet/cards.hpp"
#include "sheet/grid.hpp"
#include "sheet/marks.hpp"

namespace farflung::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using draw::Text;

void add_card(draw::Display& display, const Book& book, int print, const draw::Box& card) {
  const draw::Box box = card.inset(12);
  const std::string code = code_of(book.quilt, print);
  const std::string name = print_name(book.quilt, print);
  display.add(draw::Opening{draw::Opening::Kind::figure, "Card for a snip of " + name + ", " + code});
  const double side = box.height - 26;
  const draw::Box glue = {box.right() - side, box.top, side, side};
  display.add(draw::Line{draw::outline_of(glue), 0.7, draw::kFaint, true, {3, 3}});
  display.add(Text{"glue a snip here", glue.centre(), 7, Anchor::middle, false, draw::kFaint, Role::caption});
  const double room = glue.left - box.left - 8;
  const double size = draw::size_within(code, 34, 16, room, true);
  display.add(
      Text{code, {box.left, box.top + 34 * draw::kCapHeight}, size, Anchor::left, true, draw::kInk, Role::code});
  add_chip(display, book.quilt, print, {box.left, glue.bottom() - 24, std::min(room, 40.0), 24}, 14);
  const bool one = draw::width_of(name, 11, true) <= box.width;
  const double size_of_name = one ? 11 : 9;
  double base = box.bottom() - (one ? 4 : 12);
  for (const std::string& line : lines_of(name, size_of_name, box.width, 2, true)) {
    display.add(Text{line, {box.left, base}, size_of_name, Anchor::left, true, draw::kInk, Role::name});
    base += 10.5;
  }
  display.add(draw::Closing{});
}

}  // namespace

std::vector<Page> snip_cards(const Book& book) {
  const draw::Box room = room_of(book.paper);
  const CardGrid grid = {"Code cards", "glue a snip of each print beside its code", room.width / 3, room.height / 5.0,
                         static_cast<int>(book.quilt.prints.size())};
  return cards_in_grid(book, grid,
                       [&](draw::Display& display, int i, const draw::Box& box) { add_card(display, book, i, box); });
}

}  // namespace farflung::sheet
