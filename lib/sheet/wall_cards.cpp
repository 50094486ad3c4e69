#include <algorithm>

#include "draw/text.hpp"
#include "sheet/cards.hpp"
#include "sheet/grid.hpp"

namespace farflung::sheet {
namespace {

using block::kNone;
using draw::Anchor;
using draw::Role;
using draw::Text;

struct Card {
  std::string name;   ///< "R3"
  std::string where;  ///< "row 3 from the top: hang at the left"
  std::string holds;  ///< the blocks in order
};

std::string blocks_in(const Book& book, const std::vector<int>& cells) {
  std::string words;
  for (const int cell : cells) {
    const int block = book.quilt.layout.block[cell];
    words += (words.empty() ? "" : "  ") + (block == kNone ? std::string("\u2013") : book.quilt.blocks[block].id);
  }
  return words;
}

template <typename Belongs>
std::vector<int> cells_where(const Book& book, Belongs belongs) {
  std::vector<int> cells;
  for (std::size_t i = 0; i < book.plan.cells.size(); ++i) {
    if (belongs(book.plan.cells[i])) cells.push_back(static_cast<int>(i));
  }
  return cells;
}

std::vector<Card> all_cards(const Book& book) {
  int rows = 0, columns = 0;
  for (const setting::Cell& cell : book.plan.cells) {
    rows = std::max(rows, cell.row + 1);
    columns = std::max(columns, cell.column + 1);
  }
  const bool offset = book.quilt.setting.kind != setting::Setting::Kind::straight;
  std::vector<Card> cards;
  for (int row = 0; row < rows; ++row) {
    const auto cells = cells_where(book, [&](const setting::Cell& cell) { return cell.row == row; });
    cards.push_back({row_name(row), "row " + std::to_string(row + 1) + " from the top: hang at its left end",
                     blocks_in(book, cells)});
  }
  for (int shorter = 0; shorter <= (offset && rows > 1 ? 1 : 0); ++shorter) {
    for (int column = 0; column < columns - shorter; ++column) {
      const auto cells = cells_where(book, [&](const setting::Cell& cell) {
        return cell.column == column && (!offset || cell.row % 2 == shorter);
      });
      const std::string of = !offset ? "" : shorter == 0 ? " in the longer rows" : " in the shorter rows";
      cards.push_back({column_name(column),
                       "place " + std::to_string(column + 1) + " from the left" + of + ": hang " +
                           (shorter == 0 ? "above" : "below"),
                       blocks_in(book, cells)});
    }
  }
  return cards;
}

void add_card(draw::Display& display, const Card& card, const draw::Box& box) {
  constexpr double kNameSize = 92;
  const double middle = box.centre().x;
  const double width = box.width - 24;
  display.add(draw::Opening{draw::Opening::Kind::figure, card.name + ": " + card.where});
  display.add(Text{card.name,
                   {middle, box.top + 28 + kNameSize * draw::kCapHeight},
                   kNameSize,
                   Anchor::middle,
                   true,
                   draw::kInk,
                   Role::name});
  double base = box.top + 28 + kNameSize * draw::kCapHeight + 24;
  display.add(
      Text{draw::shortened(card.where, 9, width), {middle, base}, 9, Anchor::middle, false, draw::kInk, Role::body});
  int lines = 0;
  for (const std::string& line : draw::broken(card.holds, 7.5, width)) {
    if (++lines > 3) break;
    base += lines == 1 ? 14 : 10;
    display.add(Text{line, {middle, base}, 7.5, Anchor::middle, false, draw::kFaint, Role::caption});
  }
  display.add(draw::Closing{});
}

}  // namespace

std::vector<Page> wall_cards(const Book& book) {
  const std::vector<Card> cards = all_cards(book);
  const draw::Box room = room_of(book.paper);
  const CardGrid grid = {"Wall cards", "cut apart and hang along the wall", room.width / 2, room.height / 4,
                         static_cast<int>(cards.size())};
  return cards_in_grid(book, grid, [&](draw::Display& display, int i, const draw::Box& box) {
    add_card(display, cards[static_cast<std::size_t>(i)], box);
  });
}

}  // namespace farflung::sheet
