#include <algorithm>

#include "draw/pieces.hpp"
#include "draw/text.hpp"
#include "sheet/cards.hpp"
#include "sheet/grid.hpp"
#include "sheet/marks.hpp"

namespace farflung::sheet {
namespace {

using block::kNone;
using draw::Anchor;
using draw::Role;
using draw::Text;

struct Size {
  double width, height;  ///< inches
};
constexpr Size kSizes[] = {{2.4, 1.3}, {1.85, 1.2}, {1.5, 1.1}};  ///< largest first: three beside one another on A4 too

/// Whether the largest patch of every block takes a label of this size with 1/4 in to spare.
bool fits_all(const Book& book, Size size) {
  return std::all_of(book.quilt.patterns.begin(), book.quilt.patterns.end(), [&](const block::Pattern& pattern) {
    draw::Outline largest;
    for (const block::Patch& patch : pattern.patches) {
      draw::Outline outline = draw::inches(patch.polygon);
      if (draw::area(outline) > draw::area(largest)) largest = std::move(outline);
    }
    return largest.empty() || draw::spot_within(largest, size.width + 0.25, size.height + 0.25).fits ||
           draw::spot_within(largest, size.height + 0.25, size.width + 0.25).fits;
  });
}

struct Label {
  int block = 0;
  int cell = kNone;  ///< kNone: a spare
};

std::vector<Label> all_labels(const Book& book) {
  std::vector<Label> labels;
  for (std::size_t cell = 0; cell < book.plan.cells.size(); ++cell) {
    const int block = book.quilt.layout.block[cell];
    if (block != kNone) labels.push_back({block, static_cast<int>(cell)});
  }
  for (const int block : quilt::spares(book.quilt)) labels.push_back({block, kNone});
  return labels;
}

void add_label(draw::Display& display, const Book& book, const Label& label, const draw::Box& card) {
  const quilt::Quilt& quilt = book.quilt;
  const draw::Box box = card.inset(7);
  const std::string place = label.cell == kNone ? "spare" : setting::cell_name(book.plan.cells[label.cell]);
  std::string codes;
  for (const int print : prints_dealt(quilt, label.block)) codes += (codes.empty() ? "" : "  ") + code_of(quilt, print);
  const std::string& id = quilt.blocks[label.block].id;
  display.add(draw::Opening{draw::Opening::Kind::figure, place + ", block " + id + ", prints " + codes});

  // The arrow stands above the words, so that the label has its up even in the hand.
  add_top_arrow(display, {box.centre().x, box.top + 9}, 0, 0, 8);
  const double middle = box.centre().x;
  const auto line = [&](const std::string& words, double base, double size, bool bold, const draw::Colour& colour,
                        Role role) {
    const double fit = draw::size_within(words, size, 6.5, box.width, bold);
    display.add(
        Text{draw::shortened(words, fit, box.width, bold), {middle, base}, fit, Anchor::middle, bold, colour, role});
  };
  line(place, box.top + 27, 18, true, draw::kInk, Role::name);
  line(codes, box.top + 42, 13, true, draw::kInk, Role::code);
  line("block " + id, box.top + 52, 8, false, draw::kInk, Role::caption);
  line("remove before ironing", box.bottom() - 1, 8, false, draw::kInk, Role::caption);
  display.add(draw::Closing{});
}

}  // namespace

std::vector<Page> block_labels(const Book& book) {
  const std::vector<Label> labels = all_labels(book);
  Size size = kSizes[2];
  for (const Size& candidate : kSizes) {
    if (fits_all(book, candidate)) {
      size = candidate;
      break;
    }
  }
  const CardGrid grid = {"Block labels", "pin clear of the seams, arrow to the wall's top", size.width * kPointsPerInch,
                         size.height * kPointsPerInch, static_cast<int>(labels.size())};
  return cards_in_grid(book, grid, [&](draw::Display& display, int i, const draw::Box& box) {
    add_label(display, book, labels[static_cast<std::size_t>(i)], box);
  });
}

}  // namespace farflung::sheet
