#include "sheet/rows.hpp"

#include <algorithm>

#include "base/counted.hpp"
#include "draw/pieces.hpp"
#include "draw/text.hpp"
#include "sheet/flow.hpp"
#include "sheet/row_drawing.hpp"

namespace farflung::sheet {
namespace {

using cloth::SewingRow;
using draw::Anchor;
using draw::Role;
using draw::Text;
using draw::Vec;

constexpr double kStack = 122;
constexpr double kHigh = 58;

/// What is picked up under what, in one line.
std::string stack_words(const SewingRow& row) {
  if (row.places.size() < 2) return {};
  const std::string &top = row.places.front().name, &bottom = row.places.back().name;
  return top + " on top" + (bottom == top ? " and" : ", " + bottom) + " at the bottom, clip at the top edge";
}

/// Whether all these cells are sewn together as one unit of that stage.
bool is_sewn(const quilt::Quilt& quilt, quilt::SewnUnit::Stage stage, const std::vector<int>& cells) {
  return !cells.empty() && std::any_of(quilt.sewn_units.begin(), quilt.sewn_units.end(), [&](const auto& unit) {
    return unit.stage == stage && std::all_of(cells.begin(), cells.end(), [&](int cell) {
             return quilt.layout.block[cell] == block::kNone ||
                    std::find(unit.cells.begin(), unit.cells.end(), cell) != unit.cells.end();
           });
  });
}

std::vector<int> cells_of(const SewingRow& row) {
  std::vector<int> cells;
  for (const cloth::RowPlace& place : row.places) {
    if (place.kind == cloth::RowPlace::Kind::block) cells.push_back(place.cell);
  }
  return cells;
}

void add_row(Flow& flow, const SewingRow& row) {
  const Book& book = flow.book();
  const double strip_width = flow.width() - kStack - 22;
  const draw::Display strip = row_drawing(book, row, strip_width, kHigh);
  const draw::Display stack = stack_drawing(book, row, kStack, kHigh);
  const draw::Box box = flow.take(18 + std::max(strip.height, stack.height) + 10);
  draw::Display& display = flow.display();
  const std::string name = draw::capital(row.name);
  const double base = box.top + 12;
  add_tick(display, box.left + 1, base + 0.5);
  if (is_sewn(book.quilt, quilt::SewnUnit::Stage::row, cells_of(row))) add_done(display, box.left + 1, base + 0.5);
  display.add(Text{name, {box.left + 16, base}, kBodySize, Anchor::left, true, draw::kInk, Role::heading});
  const double after = box.left + 16 + draw::width_of(name, kBodySize, true) + 8;
  std::string words = stack_words(row);
  if (!row.press.empty()) words += (words.empty() ? "" : "; ") + row.press;
  const double room = box.right() - after;
  add_word(display, words, {after, base}, room, draw::size_within(words, 8.5, 6.5, room, false));
  const double top = box.top + 18;
  add_figure(display, name + ", the stack: " + (row.stack.empty() ? row.places.front().name : row.stack), stack,
             {box.left, top}, 1);
  std::string says = name + ", laid out:";
  for (const std::string& seam : row.seams) says += " " + seam + ";";
  add_figure(display, says, strip, {box.left + kStack + 22, top + 8}, 1);
}

/// The grid of the top with its sections, heavy lines around each, numbered.
draw::Display sections_drawing(const Book& book, double most) {
  const double scale = std::min(most / book.plan.width.inches(), most / book.plan.height.inches());
  draw::Display display;
  display.width = scale * book.plan.width.inches();
  display.height = scale * book.plan.height.inches();
  const auto cell_outline = [&](int cell) {
    draw::Outline outline = draw::outline_of_cell(book.plan, cell);
    for (Vec& p : outline) p = scale * p;
    return outline;
  };
  for (std::size_t s = 0; s < book.workroom->sewing.sections.size(); ++s) {
    const cloth::Section& section = book.workroom->sewing.sections[s];
    if (section.cells.empty()) continue;
    draw::Outline corners;
    for (const int cell : section.cells) {
      const draw::Outline outline = cell_outline(cell);
      display.add(draw::Line{outline, 0.5, draw::kFaint, true});
      corners.insert(corners.end(), outline.begin(), outline.end());
    }
    const draw::Box box = draw::box_of(corners);
    display.add(draw::Line{draw::outline_of(box), 2, draw::kInk, true});
    const std::string words = std::to_string(s + 1);
    const double size = std::min(20.0, 0.5 * std::min(box.width, box.height));
    const Vec at = {box.centre().x, box.centre().y + draw::kCapHeight * size / 2};
    const double wide = draw::width_of(words, size, true) + 6;
    display.add(draw::Area{draw::rounded({at.x - wide / 2, at.y - 0.95 * size, wide, 1.15 * size}, 3), draw::kWhite});
    display.add(Text{words, at, size, Anchor::middle, true, draw::kInk, Role::name});
  }
  return display;
}

constexpr double kNameLeft = 16;  ///< of a section's name, beside its tick

/// A section's tick and name, its base line at `at`.
void add_section_name(Flow& flow, const cloth::Section& section, Vec at, double size) {
  add_tick(flow.display(), at.x, at.y + 0.5);
  if (is_sewn(flow.book().quilt, quilt::SewnUnit::Stage::section, section.cells)) {
    add_done(flow.display(), at.x, at.y + 0.5);
  }
  flow.display().add(Text{section.name, {at.x + kNameLeft, at.y}, size, Anchor::left, false, draw::kInk, Role::body});
}

/// The names stand beside the drawing where it is as tall as they are many, else in columns below it.
void add_sections(Flow& flow) {
  constexpr double kLineOfName = 15;
  constexpr std::size_t kAbreast = 3;
  const auto& sections = flow.book().workroom->sewing.sections;
  if (sections.size() < 2) return;
  const draw::Display drawing = sections_drawing(flow.book(), 190);
  flow.gap(8);
  flow.heading("Or in sections", drawing.height + 60);
  flow.paragraph(
      "Each section is sewn like a small top, then sections are joined side by side, and these rows of "
      "sections to one another. Nothing heavier than a section goes under the needle till then.");
  const draw::Box box = flow.take(drawing.height + 8);
  add_figure(flow.display(), "The top in " + counted(sections.size(), "section"), drawing, {box.left, box.top}, 1);
  if (kLineOfName * static_cast<double>(sections.size()) <= drawing.height) {
    Vec at = {box.left + drawing.width + 20, box.top + 11};
    for (const cloth::Section& section : sections) {
      add_section_name(flow, section, at, kBodySize);
      at.y += kLineOfName;
    }
    return;
  }
  const std::size_t lines = (sections.size() + kAbreast - 1) / kAbreast;
  const double width = flow.width() / kAbreast;
  double size = kBodySize;
  for (const cloth::Section& section : sections) {
    size = draw::size_within(section.name, size, 6.5, width - kNameLeft - 12);
  }
  for (std::size_t line = 0; line < lines; ++line) {
    const draw::Box row = flow.take(kLineOfName);
    for (std::size_t column = 0; column < kAbreast; ++column) {
      const std::size_t i = column * lines + line;
      if (i >= sections.size()) break;
      const double left = row.left + static_cast<double>(column) * width;
      add_section_name(flow, sections[i], {left + 1, row.top + 11}, size);
    }
  }
}

}  // namespace

std::vector<Page> sewing_rows(const Book& book) {
  const cloth::SewingOrder& order = book.workroom->sewing;
  if (order.rows.empty()) return {};
  Flow flow(book, "Rows", order.diagonal ? "diagonal rows, laid level" : "stack, sew, put back");
  flow.paragraph(
      "Pick each row up from its far end, so that the first block lies on top; one clip at its top edge keeps the row "
      "and its way up. Heavy lines: the edges that are sewn. Back to the wall from the top of the stack, left to "
      "right.",
      kSmallSize, draw::kFaint);
  if (order.diagonal) {
    flow.paragraph(
        "Seen with the wall turned an eighth to the left: each row runs from its upper left end down to the "
        "right.",
        kSmallSize, draw::kFaint);
  }
  for (const SewingRow& row : order.rows) add_row(flow, row);
  flow.gap(8);
  double joining = 0;  // on one page: the last of it by itself would be a page of one line
  for (const std::string& step : order.steps) joining += flow.tick_height(step);
  flow.heading("Joining", joining);
  for (const std::string& step : order.steps) flow.tick(step);
  add_sections(flow);
  return std::move(flow).pages();
}

}  // namespace farflung::sheet
