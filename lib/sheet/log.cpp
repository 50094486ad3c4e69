#include "sheet/log.hpp"

#include <algorithm>

#include "draw/text.hpp"
#include "sheet/marks.hpp"

namespace farflung::sheet {
namespace {

using block::kNone;
using draw::Anchor;
using draw::Role;
using draw::Text;

constexpr double kWritingLine = 17.5;
constexpr double kCloserLine = 15.5;  ///< where that saves a page
constexpr double kHead = 16;
constexpr double kBox = 9;
constexpr double kTickColumn = 28;
constexpr double kSmallestCodes = 6;

/// A thing to do, with a box for each step.
struct Entry {
  std::string name;    ///< "B012"
  std::string detail;  ///< "R3 C5"
  std::string more;    ///< "K M"
};

struct Table {
  std::string part;
  std::vector<std::string> steps;
  std::vector<Entry> entries;
};

Table blocks_table(const Book& book) {
  const quilt::Quilt& quilt = book.quilt;
  Table table = {"the blocks", {"cut", "sewn", "pressed", "hung"}, {}};
  std::vector<int> cell_of(quilt.blocks.size(), kNone);
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    if (quilt.layout.block[cell] != kNone) cell_of[quilt.layout.block[cell]] = static_cast<int>(cell);
  }
  for (std::size_t block = 0; block < quilt.blocks.size(); ++block) {
    std::string codes;
    for (const int print : prints_dealt(quilt, static_cast<int>(block))) {
      codes += (codes.empty() ? "" : " ") + code_of(quilt, print);
    }
    const int cell = cell_of[block];
    table.entries.push_back({quilt.blocks[block].id,
                             cell == kNone ? "spare" : setting::cell_name(book.plan.cells[cell]), std::move(codes)});
  }
  return table;
}

Table rows_table(const Book& book) {
  const bool on_point = book.plan.on_point;
  Table table = {on_point ? "the whole quilt" : "rows and the whole quilt", {"done"}, {}};
  if (!on_point) {
    int rows = 0;
    for (const setting::Cell& cell : book.plan.cells) rows = std::max(rows, cell.row + 1);
    for (int row = 0; row < rows; ++row) table.entries.push_back({row_name(row), "sewn together and pressed", ""});
    table.entries.push_back({"Rows", "joined into the top", ""});
  } else {
    table.entries.push_back({"Top", "diagonal rows sewn, with their setting triangles", ""});
    table.entries.push_back({"Top", "diagonal rows joined, corners added", ""});
  }
  for (std::size_t i = 0; i < book.quilt.setting.borders.size(); ++i) {
    table.entries.push_back({"Border " + std::to_string(i + 1), "measured at the middle, sewn on", ""});
  }
  for (const char* step : {"pressed, threads trimmed", "photographed", "layered with batting and backing", "quilted",
                           "squared up", "bound", "labelled: maker, place, year", "washed or aired, and given away"}) {
    table.entries.push_back({"Quilt", step, ""});
  }
  return table;
}

void add_head(draw::Display& display, const Table& table, const draw::Box& box) {
  double x = box.right() - kTickColumn * static_cast<double>(table.steps.size());
  for (const std::string& step : table.steps) {
    display.add(
        Text{step, {x + kTickColumn / 2, box.top + kHead - 5}, 7, Anchor::middle, false, draw::kFaint, Role::caption});
    x += kTickColumn;
  }
  display.add(draw::Line{{{box.left, box.top + kHead}, {box.right(), box.top + kHead}}, 0.7, draw::kFaint});
}

void add_entry(draw::Display& display, const Table& table, const Entry& entry, const draw::Box& box) {
  const double base = box.centre().y + 3.55;
  const double ticks = kTickColumn * static_cast<double>(table.steps.size());
  const double name = entry.name.size() > 5 ? 54 : 40;
  display.add(Text{
      draw::shortened(entry.name, 9, name - 4, true), {box.left, base}, 9, Anchor::left, true, draw::kInk, Role::name});
  const double rest = box.width - ticks - name - 4;
  const double detail = entry.more.empty() ? rest : 40;
  add_word(display, entry.detail, {box.left + name, base}, detail, 8.5);
  if (!entry.more.empty()) {
    const double room = rest - detail - 4;
    const double fit = draw::size_within(entry.more, 8.5, kSmallestCodes, room);
    display.add(Text{draw::shortened(entry.more, fit, room),
                     {box.left + name + detail + 4, base},
                     fit,
                     Anchor::left,
                     false,
                     draw::kFaint,
                     Role::body});
  }
  for (std::size_t i = 0; i < table.steps.size(); ++i) {
    const double x = box.right() - ticks + (static_cast<double>(i) + 0.5) * kTickColumn;
    const draw::Box tick = {x - kBox / 2, box.centre().y - kBox / 2, kBox, kBox};
    display.add(draw::Line{draw::outline_of(tick), 0.8, draw::kInk, true});
  }
  display.add(draw::Line{{{box.left, box.bottom()}, {box.right(), box.bottom()}}, 0.35, draw::kHair});
}

std::vector<Page> pages_of(const Book& book, const Table& table) {
  const draw::Box room = room_of(book.paper);
  constexpr double kGap = 22;
  const auto lines_of = [&](double tall) { return static_cast<std::size_t>((room.height - kHead) / tall); };
  const auto pages_for = [&](double tall) {
    return (table.entries.size() + 2 * lines_of(tall) - 1) / (2 * lines_of(tall));
  };
  const double line = pages_for(kCloserLine) < pages_for(kWritingLine) ? kCloserLine : kWritingLine;
  const std::size_t lines = lines_of(line);
  const bool one = table.entries.size() <= lines;
  const double width = one ? room.width : (room.width - kGap) / 2;
  std::vector<Page> pages;
  for (std::size_t first = 0; first < table.entries.size(); first += 2 * lines) {
    Page page = blank_page(book, "Log", table.part);
    const std::size_t count = std::min(2 * lines, table.entries.size() - first);
    const std::size_t tall = one ? count : std::max(std::min<std::size_t>(count, 12), (count + 1) / 2);
    for (std::size_t i = 0; i < count; ++i) {
      const double left = room.left + (i / tall == 0 ? 0 : width + kGap);
      if (i % tall == 0) add_head(page.display, table, {left, room.top, width, kHead});
      add_entry(page.display, table, table.entries[first + i],
                {left, room.top + kHead + static_cast<double>(i % tall) * line, width, line});
    }
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace

std::vector<Page> work_log(const Book& book) {
  std::vector<Page> pages = pages_of(book, blocks_table(book));
  for (Page& page : pages_of(book, rows_table(book))) pages.push_back(std::move(page));
  return pages;
}

}  // namespace farflung::sheet
