#include "base/counted.hpp"
#include "draw/text.hpp"
#include "sheet/finishing.hpp"
#include "sheet/flow.hpp"
#include "sheet/grid.hpp"
#include "sheet/print_line.hpp"

namespace farflung::sheet {
namespace {

using cloth::KitLine;
using draw::Anchor;
using draw::Role;
using draw::Text;

constexpr double kLineHeight = 16;

void add_line(Flow& flow, const KitLine& line) {
  const double words_width = flow.width() - 300;
  const std::string more =
      (line.lots.empty() ? std::string() : "lot " + line.lots + "; ") +
      (line.price > 0 ? "price of one kit's length " + cloth::number(line.price, 2) : std::string());
  const draw::Box box = flow.take(kLineHeight);
  draw::Display& display = flow.display();
  const double base = box.bottom() - 5;
  const auto word = [&](const std::string& words, double left, double width, bool bold) {
    add_word(display, words, {box.left + left, base}, width, kBodySize, bold);
  };
  add_tick(display, box.left + 1, base + 0.5);
  if (line.print != block::kNone)
    add_print(display, flow.book().quilt, line.print, {box.left + 16, base}, kBodySize, 130);
  word(cloth::amount_text(line.each.amount, line.each.unit), 152, 60, true);
  word(cloth::amount_text(line.pull, line.each.unit), 216, 60, false);
  word(counted(line.bolts, "bolt"), 280, 50, false);
  word(more, 334, words_width - 40, false);
  display.add(draw::Line{{{box.left, box.bottom()}, {box.right(), box.bottom()}}, 0.35, draw::kHair});
}

void add_kit_head(Flow& flow) {
  const draw::Box box = flow.take(kLineHeight);
  const auto word = [&](const char* words, double left) {
    flow.display().add(
        Text{words, {box.left + left, box.bottom() - 4}, kSmallSize, Anchor::left, false, draw::kFaint, Role::caption});
  };
  word("print", 16);
  word("each kit", 152);
  word("pull for all", 216);
  word("bolts", 280);
  word("lot, price", 334);
}

std::vector<Page> bag_labels(const Book& book, const cloth::Kits& kits) {
  const draw::Box room = room_of(book.paper);
  const CardGrid grid = {"Bag labels", "cut apart, one in each bag", room.width / 2, 110, kits.kits};
  return cards_in_grid(book, grid, [&](draw::Display& display, int i, const draw::Box& box) {
    const draw::Box inner = box.inset(12);
    const std::string number = "Kit " + std::to_string(i + 1) + " of " + std::to_string(kits.kits);
    display.add(draw::Opening{draw::Opening::Kind::figure, number + ": " + kits.label});
    display.add(Text{number, {inner.left, inner.top + 18}, 18, Anchor::left, true, draw::kInk, Role::name});
    double base = inner.top + 36;
    for (const std::string& line : draw::broken(kits.label, 9, inner.width)) {
      if (base > inner.bottom()) break;
      display.add(Text{line, {inner.left, base}, 9, Anchor::left, false, draw::kInk, Role::body});
      base += 12;
    }
    display.add(draw::Closing{});
  });
}

}  // namespace

std::vector<Page> kit_pages(const Book& book) {
  if (!book.workroom->kits) return {};
  const cloth::Kits& kits = *book.workroom->kits;
  Flow flow(book, "Kits", counted(kits.kits, "kit") + ", each cut on its own, its spare counted in");
  add_kit_head(flow);
  for (const KitLine& line : kits.lines) add_line(flow, line);
  flow.gap(4);
  if (kits.price > 0) {
    flow.paragraph("One kit: " + cloth::number(kits.price, 2) +
                   (kits.all_priced ? "." : ", prints with a price only; others have none noted.") +
                   " All: " + cloth::number(kits.price * kits.kits, 2) + ".");
  }
  flow.gap(6);
  flow.heading("Packing, for each kit");
  for (const std::string& thing : kits.packing) flow.tick(thing);
  std::vector<Page> pages = std::move(flow).pages();
  for (Page& page : bag_labels(book, kits)) pages.push_back(std::move(page));
  return pages;
}

}  // namespace farflung::sheet
