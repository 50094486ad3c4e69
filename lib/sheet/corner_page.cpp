#include "draw/text.hpp"
#include "photo/corner_cards.hpp"
#include "sheet/cards.hpp"
#include "sheet/grid.hpp"

namespace farflung::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using draw::Text;

constexpr const char* kCorners[] = {"top left", "top right", "bottom right", "bottom left"};
constexpr draw::Colour kBlack{0, 0, 0, 1};

/// Black cells that lie side by side are one area: no hair of white between them.
void add_mark(draw::Display& display, const photo::CornerCard& card, draw::Vec tip) {
  const double cell = photo::kCornerMark / static_cast<double>(card.black.size()) * kPointsPerInch;
  const draw::Vec corner = tip + kPointsPerInch * draw::Vec{card.left, card.top};
  for (std::size_t row = 0; row < card.black.size(); ++row) {
    const std::vector<bool>& cells = card.black[row];
    for (std::size_t from = 0; from < cells.size(); ++from) {
      if (!cells[from]) continue;
      std::size_t to = from;
      while (to < cells.size() && cells[to]) ++to;
      const double overlap = row + 1 < card.black.size() ? 0.05 : 0;
      display.add(draw::Area{
          draw::outline_of({corner.x + static_cast<double>(from) * cell, corner.y + static_cast<double>(row) * cell,
                            static_cast<double>(to - from) * cell, cell + overlap}),
          kBlack});
      from = to;
    }
  }
}

void add_card(draw::Display& display, int corner, const draw::Box& box) {
  const photo::CornerCard& card = photo::corner_cards()[static_cast<std::size_t>(corner)];
  const bool tip_right = card.left < 0, tip_below = card.top < 0;
  const draw::Vec tip = {tip_right ? box.right() : box.left, tip_below ? box.bottom() : box.top};
  const std::string name = kCorners[corner];
  display.add(draw::Opening{draw::Opening::Kind::figure, "Corner card for the " + name + " of the blocks"});
  add_mark(display, card, tip);
  const double reach = 0.2 * kPointsPerInch;
  display.add(draw::Area{
      {tip, tip + draw::Vec{tip_right ? -reach : reach, 0}, tip + draw::Vec{0, tip_below ? -reach : reach}}, kBlack});
  const double mark = (photo::kCornerMark + 2 * photo::kCornerWhite) * kPointsPerInch;
  const double words = box.height - mark;
  double base = (tip_below ? box.top : box.top + mark) + words / 2 - 6;
  const double middle = box.centre().x;
  display.add(Text{"Corner: " + name, {middle, base}, 13, Anchor::middle, true, draw::kInk, Role::name});
  for (const char* line :
       {"The black tip touches the outer corner of the", "blocks; the card hangs upright beside them."}) {
    base += 12;
    display.add(Text{line, {middle, base}, 8, Anchor::middle, false, draw::kInk, Role::body});
  }
  display.add(draw::Closing{});
}

}  // namespace

std::vector<Page> corner_marks(const Book& book) {
  constexpr double kWide = 3.4, kHigh = 4.1;  // inches, of a card
  const CardGrid grid = {"Corner cards", "print at 100 %, cut apart on the lines", kWide * kPointsPerInch,
                         kHigh * kPointsPerInch, 4};
  // In the page's own reading order, so that cards which lie side by side hang side by side.
  constexpr int kOrder[] = {0, 1, 3, 2};
  return cards_in_grid(book, grid,
                       [&](draw::Display& display, int i, const draw::Box& box) { add_card(display, kOrder[i], box); });
}

}  // namespace farflung::sheet
