#include "sheet/slip.hpp"

#include <algorithm>

#include "draw/text.hpp"
#include "draw/top.hpp"

namespace farflung::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using draw::Text;

std::string size_words(Length width, Length height, quilt::Units units) {
  return draw::spoken(width, units) + " wide, " + draw::spoken(height, units) + " long";
}

constexpr double kRow = 26;
constexpr double kLabel = 130;

/// Label at the left; words, in two lines where they need as many, or a line to write on. Returns where the row ends.
double add_line(draw::Display& display, const std::string& what, const std::string& says, const draw::Box& room) {
  double base = room.top + kRow - 8;
  display.add(Text{what, {room.left, base}, 10, Anchor::left, false, draw::kFaint, Role::caption});
  if (says.empty()) {
    display.add(draw::Line{{{room.left + kLabel, base + 2}, {room.right(), base + 2}}, 0.5, draw::kHair});
    return room.top + kRow;
  }
  for (const std::string& line : lines_of(says, 10, room.width - kLabel, 2)) {
    display.add(Text{line, {room.left + kLabel, base}, 10, Anchor::left, false, draw::kInk, Role::body});
    base += 13;
  }
  return base - 13 + 8;
}

}  // namespace

std::vector<Page> quilting_slip(const Book& book) {
  const quilt::Quilt& quilt = book.quilt;
  const setting::Plan& plan = book.plan;
  const cloth::Workroom& sewn = *book.workroom;
  const bool upright = std::any_of(quilt.prints.begin(), quilt.prints.end(), [](const auto& p) { return p.upright; });
  const bool long_way = plan.height > plan.width;

  Page page = blank_page(book, "Slip for the quilter", "goes along with top, batting and backing");
  const draw::Box room = room_of(book.paper);
  constexpr double kPicture = 170;
  const draw::Top top = draw::top_of(quilt, plan, {.binding = false});
  const draw::Box lies = draw::fitted(top.display.width, top.display.height, {room.left, room.top + 16, 150, kPicture});
  add_figure(page.display, "The top as it lies, its top edge up", top.display, {room.left, lies.top},
             lies.width / top.display.width);
  page.display.add(
      Text{"top edge", {room.left + lies.width / 2, room.top + 9}, 8, Anchor::middle, true, draw::kInk, Role::name});
  const double left = room.left + 170;
  const double width = room.right() - left;
  double y = room.top + 2;
  y = add_paragraph(page.display,
                    "Measured sizes may differ from these: measure top and backing before loading, and ask.", {left, y},
                    width, 10) +
      6;
  y = add_paragraph(page.display,
                    std::string("The top edge is marked by a pin at its middle. ") +
                        (upright    ? "Some prints have an up: load with the top edge first."
                         : long_way ? "No print has an up: it may be loaded from a side if that saves turns."
                                    : "No print has an up."),
                    {left, y}, width, 10) +
      6;
  struct Item {
    std::string what, says;
  };
  const Item items[] = {{"Quilt", quilt.title},
                        {"Top", size_words(sewn.top.width, sewn.top.height, quilt.units)},
                        {"Backing, at least", size_words(sewn.backing.width, sewn.backing.height, quilt.units)},
                        {"Batting, at least", size_words(sewn.batting.width, sewn.batting.height, quilt.units)},
                        {"Backing print", quilt.backing ? print_name(quilt, quilt.backing->print) : ""},
                        {"Batting", ""},
                        {"Quilting design", ""},
                        {"How close", ""},
                        {"Thread, top", ""},
                        {"Thread, bobbin", ""},
                        {"Edges after quilting", "\u2610 leave   \u2610 trim to the top   \u2610 bind"},
                        {"Keep clear of", ""},
                        {"Wanted by", ""},
                        {"Maker", ""},
                        {"How to reach her or him", ""},
                        {"Notes", ""}};
  double top_of_list = std::max(y, room.top + 16 + kPicture) + 12;
  for (const Item& item : items) {
    top_of_list = add_line(page.display, item.what, item.says, {room.left, top_of_list, room.width, kRow});
  }
  return {std::move(page)};
}

}  // namespace farflung::sheet
