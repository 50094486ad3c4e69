#include "draw/text.hpp"
#include "photo/corner_cards.hpp"
#include "sheet/cards.hpp"
#include "sheet/grid.hpp"
#include "sheet/mark.hpp"

namespace farflung::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using draw::Text;

constexpr const char* kCorners[] = {"top left", "top right", "bottom right", "bottom left"};
constexpr draw::Colour kBlack{0, 0, 0, 1};

void add_card(draw::Display& display, int corner, const draw::Box& box) {
  const photo::CornerCard& card = photo::corner_cards()[static_cast<std::size_t>(corner)];
  const bool tip_right = card.left < 0, tip_below = card.top < 0;
  const draw::Vec tip = {tip_right ? box.right() : box.left, tip_below ? box.bottom() : box.top};
  const std::string name = kCorners[corner];
  display.add(draw::Opening{draw::Opening::Kind::figure, "Corner card for the " + name + " of the blocks"});
  const std::size_t cells = card.black.size();
  add_mark(
      display, cells, [&](std::size_t row, std::size_t column) { return card.black[row][column]; },
      tip + kPointsPerInch * draw::Vec{card.left, card.top},
      photo::kCornerMark / static_cast<double>(cells) * kPointsPerInch);
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
