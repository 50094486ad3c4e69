#include "sheet/shopping.hpp"

#include <algorithm>
#include <map>

#include "cloth/shopping.hpp"
#include "draw/text.hpp"
#include "sheet/flow.hpp"
#include "sheet/print_line.hpp"

namespace farflung::sheet {
namespace {

using cloth::Purchase;
using cloth::ShoppingLine;
using draw::Anchor;
using draw::Role;
using draw::Text;

/// The prints of a line, as many to a row as fit; the height they take. Draws only where `display` is given.
double add_prints(draw::Display* display, const quilt::Quilt& quilt, const std::vector<int>& prints, draw::Vec at,
                  double width) {
  constexpr double kRow = 16;
  double x = 0, y = 0;
  for (const int print : prints) {
    const double wide = std::min(width, width_of_print(quilt, print, kBodySize) + 16);
    if (x > 0 && x + wide > width + 1e-6) {
      x = 0;
      y += kRow;
    }
    if (display) add_print(*display, quilt, print, at + draw::Vec{x, y + 11}, kBodySize, wide - 8);
    x += wide;
  }
  return prints.empty() ? 0 : y + kRow;
}

void add_line(Flow& flow, const ShoppingLine& line) {
  constexpr double kWhat = 18, kAmount = 122, kSays = 196;
  const quilt::Quilt& quilt = flow.book().quilt;
  const double width = flow.width() - kSays;
  const double prints = add_prints(nullptr, quilt, line.prints, {}, width);
  const double working = height_of(line.says, kSmallSize, width);
  const draw::Box box = flow.take(std::max(line.prints.size() > 1 ? 42.0 : 22.0, prints + working + 10));
  draw::Display& display = flow.display();
  display.add(draw::Line{{{box.left, box.top}, {box.right(), box.top}}, 0.35, draw::kHair});
  const double base = box.top + 15;
  add_tick(display, box.left + 1, base, 10);
  const auto word = [&](const std::string& words, double left, double right, double size, bool bold) {
    add_word(display, words, {box.left + left, base}, right - left - 6, size, bold);
  };
  const auto many = line.prints.size();
  word(draw::capital(line.what), kWhat, kAmount, kBodySize, false);
  word(cloth::amount_text(line.each, line.unit), kAmount, kSays, 12, true);
  if (many > 1) {
    const std::string all = "each; " + cloth::amount_text(line.in_all, line.unit);
    display.add(Text{all, {box.left + kAmount, base + 13}, kSmallSize, Anchor::left, false, draw::kInk, Role::body});
    display.add(
        Text{"in all", {box.left + kAmount, base + 23}, kSmallSize, Anchor::left, false, draw::kInk, Role::body});
  }
  add_prints(&display, quilt, line.prints, {box.left + kSays, box.top + 4}, width);
  add_paragraph(display, line.says, {box.left + kSays, box.top + 4 + prints}, width, kSmallSize, draw::kFaint);
}

/// How amounts came about, said once.
std::string rules_of(const cloth::CutList& list) {
  const cloth::YardageOptions& by = list.yardage;
  const bool metric = list.ruler == cloth::Ruler::millimetres;
  std::string says = "Cloth is counted " + cloth::said(by.usable_width, list.ruler) +
                     " wide, selvages off; each length is straightened by " + cloth::said(by.squaring, list.ruler) +
                     " and rounded up to " + (metric ? "10 cm" : "1/8 yd") + ". ";
  const std::string share = cloth::number(100 * by.shrinkage, 1) + " %";
  says += by.prewashed
              ? "It is washed before it is cut: " + share + " more for shrinking is counted in."
              : "Nothing is counted for shrinking: cloth that is washed before it is cut takes " + share + " more.";
  return says;
}

}  // namespace

std::vector<Page> shopping_list(const Book& book) {
  const cloth::Workroom& room = *book.workroom;
  Flow flow(book, "Shopping list", "what is not in hand, with the working");
  flow.paragraph(rules_of(room.list), kSmallSize, draw::kFaint);
  flow.gap(4);
  if (room.buy.empty()) flow.paragraph("Nothing: the cloth in hand is enough for everything.");
  for (const ShoppingLine& line : cloth::shopping_lines(book.quilt, room.buy)) add_line(flow, line);

  if (room.unchosen_binding) {
    const Purchase& usual = *room.unchosen_binding;
    flow.gap(8);
    flow.paragraph("No binding is chosen yet. Cut straight across the cloth it would take " +
                       cloth::amount_text(usual.amount, usual.unit) + ". " + usual.says,
                   kSmallSize + 1);
  }
  std::vector<const cloth::PrintPlan*> enough;
  for (const cloth::PrintPlan& plan : room.plans.plans) {
    if (plan.enough) enough.push_back(&plan);
  }
  if (!enough.empty()) {
    flow.gap(8);
    flow.heading("In hand, and enough");
    for (const cloth::PrintPlan* plan : enough) flow.paragraph(plan->says, kSmallSize + 1);
  }
  flow.gap(8);
  for (const std::string& says : room.unbought) flow.paragraph(says, kSmallSize + 1);
  return std::move(flow).pages();
}

}  // namespace farflung::sheet
