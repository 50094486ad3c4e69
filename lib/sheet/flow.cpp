#include "sheet/flow.hpp"

#include "draw/text.hpp"

namespace farflung::sheet {

using draw::Anchor;
using draw::Role;
using draw::Text;

namespace {

constexpr double kTickIndent = 18;

}  // namespace

Flow::Flow(const Book& book, std::string section, std::string part)
    : book_(book), section_(std::move(section)), part_(std::move(part)), room_(room_of(book.paper)) {}

void Flow::new_page() {
  pages_.push_back(blank_page(book_, section_, part_));
  y_ = room_.top;
}

draw::Display& Flow::display() {
  if (pages_.empty()) new_page();
  return pages_.back().display;
}

void Flow::keep(double height) {
  if (pages_.empty() || (y_ + height > room_.bottom() + 1e-6 && y_ > room_.top + 1e-6)) new_page();
}

draw::Box Flow::take(double height) {
  keep(height);
  const draw::Box box = {room_.left, y_, room_.width, height};
  y_ += height;
  return box;
}

void Flow::gap(double height) {
  if (!pages_.empty() && y_ > room_.top + 1e-6) y_ = std::min(y_ + height, room_.bottom());
}

void Flow::heading(const std::string& words, double with) {
  constexpr double kSize = 12;
  keep(1.8 * kSize + with);
  const draw::Box box = take(1.8 * kSize);
  display().add(draw::Opening{draw::Opening::Kind::heading, {}});
  display().add(Text{draw::shortened(words, kSize, box.width, true),
                     {box.left, box.top + 1.15 * kSize},
                     kSize,
                     Anchor::left,
                     true,
                     draw::kInk,
                     Role::heading});
  display().add(draw::Closing{});
}

void Flow::paragraph(const std::string& words, double size, const draw::Colour& colour) {
  const draw::Box box = take(paragraph_height(words, size));
  add_paragraph(display(), words, {box.left, box.top}, box.width, size, colour);
}

double Flow::paragraph_height(const std::string& words, double size) const {
  return height_of(words, size, room_.width) + 0.5 * size;
}

void Flow::tick(const std::string& words, double size) {
  const draw::Box box = take(tick_height(words, size));
  add_tick(display(), box.left + 1, box.top + size, 9);
  add_paragraph(display(), words, {box.left + kTickIndent, box.top}, box.width - kTickIndent, size);
}

double Flow::tick_height(const std::string& words, double size) const {
  return height_of(words, size, room_.width - kTickIndent) + 0.6 * size;
}

double height_of(const std::string& words, double size, double width) {
  const auto lines = static_cast<double>(draw::broken(words, size, width).size());
  return (1.35 * (lines - 1) + 1.35) * size;
}

void add_tick(draw::Display& display, double left, double base, double side) {
  display.add(draw::Line{draw::outline_of({left, base - side, side, side}), 0.9, draw::kInk, true});
}

void add_done(draw::Display& display, double left, double base, double side) {
  const draw::Outline mark = {{left + 0.2 * side, base - 0.5 * side},
                              {left + 0.42 * side, base - 0.2 * side},
                              {left + 0.95 * side, base - 1.1 * side}};
  display.add(draw::Line{{mark[0], mark[1]}, 1.8, draw::kInk});
  display.add(draw::Line{{mark[1], mark[2]}, 1.8, draw::kInk});
}

}  // namespace farflung::sheet
