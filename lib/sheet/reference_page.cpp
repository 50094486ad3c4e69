#include "sheet/reference_page.hpp"

#include "draw/text.hpp"
#include "photo/reference_sheet.hpp"
#include "sheet/mark.hpp"

namespace farflung::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using draw::Text;

constexpr draw::Colour kBlack{0, 0, 0, 1};
constexpr draw::Colour kHair{0.55, 0.55, 0.55, 1};

/// Inches from the sheet's middle to points of the page.
class Placing {
 public:
  explicit Placing(const Paper& paper) : middle_{paper.width / 2, paper.height / 2} {}

  draw::Vec at(double x, double y) const { return middle_ + kPointsPerInch * draw::Vec{x, y}; }
  draw::Box box(const photo::SheetBox& box) const {
    const draw::Vec corner = at(box.left, box.top);
    return {corner.x, corner.y, box.width * kPointsPerInch, box.height * kPointsPerInch};
  }

 private:
  draw::Vec middle_;
};

void add_screen(draw::Display& display, const photo::SheetScreen& screen, const Placing& place) {
  for (const photo::SheetBox& line : screen.lines()) {
    display.add(draw::Area{draw::outline_of(place.box(line)), kBlack});
  }
}

/// A line to lay a ruler on, with its ends ticked and its length said.
void add_check_line(draw::Display& display, const draw::Box& box, const std::string& length) {
  const double tick = 5;
  const double y = box.top;
  display.add(draw::Line{{{box.left, y}, {box.right(), y}}, 0.8, kBlack, false, {}});
  for (const double x : {box.left, box.right()}) {
    display.add(draw::Line{{{x, y - tick}, {x, y + tick}}, 0.8, kBlack, false, {}});
  }
  display.add(Text{length, {box.centre().x, y + 13}, 8, Anchor::middle, false, draw::kInk, Role::caption, 0});
}

void add_window(draw::Display& display, const draw::Box& window) {
  display.add(draw::Line{draw::outline_of(window), 0.6, kHair, true, {4, 3}});
  const double width = window.width - 40;
  double y = window.top + 40;
  display.add(Text{"Reference sheet", {window.left + 20, y}, 15, Anchor::left, true, draw::kInk, Role::title, 0});
  y += 16;
  for (const char* words :
       {"Print this page at 100 %, not fitted to the paper, in black on plain white paper. Lay a "
        "ruler on the two lines: "
        "if they are not one inch and five centimetres long, the page is not true to size.",
        "Lay it flat beside your fabrics, in the same light, and photograph all of it with them. "
        "Or cut this window out and "
        "lay the page over the cloth; or lay a piece of cloth in the window.",
        "Marks, grey fields and white paper must stay uncovered. Keep your own shadow off the page.",
        "Cutting the window out: a craft knife or rotary cutter is sharp. Cut away from yourself, "
        "on a mat, and keep it "
        "from children."}) {
    y = add_paragraph(display, words, {window.left + 20, y}, width, 10) + 8;
  }
}

}  // namespace

Page reference_page(const Paper& paper) {
  const photo::SheetPlan& plan = photo::sheet_plan();
  const Placing place(paper);
  Page page;
  page.section = "Reference sheet";
  page.bare = true;
  page.display.width = paper.width;
  page.display.height = paper.height;
  for (const photo::SheetMark& mark : plan.marks) {
    const draw::Box box = place.box(mark.box);
    add_mark(
        page.display, mark.black.size(), [&](std::size_t row, std::size_t column) { return mark.black[row][column]; },
        {box.left, box.top}, box.width / static_cast<double>(mark.black.size()));
  }
  for (const photo::SheetScreen& screen : plan.screens) add_screen(page.display, screen, place);
  add_window(page.display, place.box(plan.window));
  add_check_line(page.display, place.box(plan.inch), "1 inch");
  add_check_line(page.display, place.box(plan.five_centimetres), "5 cm");
  return page;
}

}  // namespace farflung::sheet
