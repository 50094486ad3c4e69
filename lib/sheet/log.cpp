#include "sheet/log.hpp"

#include <algorithm>
#include <numeric>

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
constexpr double kCodesAtMost = 8.5;
constexpr double kCodesAtLeast = 8;  ///< read at arm's length from a wall
constexpr double kLineOfCodes = 10;
constexpr double kPlaceWidth = 40;  ///< as wide as "R12 C10"

/// A thing to do, with a box for each step.
struct Entry {
  std::string name;    ///< "B012"
  std::string detail;  ///< "R3 C5"
  std::string more;    ///< "K M"
};

/// How wide the name stands.
double name_width(const Entry& entry) { return entry.name.size() > 5 ? 54 : 40; }

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

double ticks_width(const Table& table) { return kTickColumn * static_cast<double>(table.steps.size()); }

/// The codes of an entry in so many lines as they need, and how large.
struct BrokenCodes {
  double size = kCodesAtMost;
  std::vector<std::string> lines;
};
BrokenCodes broken_codes(const Table& table, const Entry& entry, double width) {
  if (entry.more.empty()) return {};
  const double room = width - ticks_width(table) - name_width(entry) - kPlaceWidth - 8;
  const double size = draw::size_within(entry.more, kCodesAtMost, kCodesAtLeast, room);
  return {size, draw::broken(entry.more, size, room)};
}

/// How high each entry is, `line` where its codes stand in one line.
std::vector<double> entry_heights(const Table& table, double width, double line) {
  std::vector<double> heights;
  for (const Entry& entry : table.entries) {
    const std::size_t lines = broken_codes(table, entry, width).lines.size();
    heights.push_back(line + (lines > 1 ? kLineOfCodes * static_cast<double>(lines - 1) : 0));
  }
  return heights;
}

/// The end of the column that begins with entry `first`: as many as go into `room`, one at least.
std::size_t column_end(const std::vector<double>& heights, std::size_t first, double room) {
  constexpr double kRounding = 1e-6;
  std::size_t end = first;
  for (double y = 0; end < heights.size() && (end == first || y + heights[end] < room + kRounding); ++end) {
    y += heights[end];
  }
  return end;
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

void add_entry(draw::Display& display, const Table& table, const Entry& entry, double line, const draw::Box& box) {
  const double middle = box.top + line / 2;
  const double base = middle + 3.55;
  const double ticks = ticks_width(table);
  const double name = name_width(entry);
  display.add(Text{
      draw::shortened(entry.name, 9, name - 4, true), {box.left, base}, 9, Anchor::left, true, draw::kInk, Role::name});
  const double detail = entry.more.empty() ? box.width - ticks - name - 4 : kPlaceWidth;
  add_word(display, entry.detail, {box.left + name, base}, detail, 8.5);
  const BrokenCodes codes = broken_codes(table, entry, box.width);
  for (std::size_t i = 0; i < codes.lines.size(); ++i) {
    display.add(Text{codes.lines[i],
                     {box.left + name + detail + 4, base + kLineOfCodes * static_cast<double>(i)},
                     codes.size,
                     Anchor::left,
                     false,
                     draw::kFaint,
                     Role::body});
  }
  for (std::size_t i = 0; i < table.steps.size(); ++i) {
    const double x = box.right() - ticks + (static_cast<double>(i) + 0.5) * kTickColumn;
    const draw::Box tick = {x - kBox / 2, middle - kBox / 2, kBox, kBox};
    display.add(draw::Line{draw::outline_of(tick), 0.8, draw::kInk, true});
  }
  display.add(draw::Line{{{box.left, box.bottom()}, {box.right(), box.bottom()}}, 0.35, draw::kHair});
}

/// Which entries stand in which column: each column's first, and the end of them all.
struct LogColumns {
  double line = kWritingLine, width = 0;
  std::vector<double> heights;
  std::vector<std::size_t> ends = {0};
  bool one = false;  ///< all of them in one column as wide as the page; else two to a page

  std::size_t pages() const { return one ? 1 : ends.size() / 2; }
};

/// Where the first of the last two columns ends: both of one height, but a dozen lines are not parted.
std::size_t even_split(const LogColumns& columns, std::size_t first) {
  const auto from = columns.heights.begin() + static_cast<std::ptrdiff_t>(first);
  double wanted = std::max(std::accumulate(from, columns.heights.end(), 0.0) / 2, 12 * columns.line);
  std::size_t end = first;
  while (end < columns.heights.size() && wanted > 0) wanted -= columns.heights[end++];
  return end;
}

LogColumns log_columns(const Table& table, double width, double room, double line) {
  constexpr double kGap = 22;
  LogColumns columns = {line, width, entry_heights(table, width, line)};
  columns.one = std::accumulate(columns.heights.begin(), columns.heights.end(), 0.0) <= room;
  const std::size_t all = columns.heights.size();
  if (columns.one) {
    columns.ends.push_back(all);
    return columns;
  }
  columns.width = (width - kGap) / 2;
  columns.heights = entry_heights(table, columns.width, line);
  while (columns.ends.back() < all) {
    const std::size_t first = columns.ends.back();
    std::size_t middle = column_end(columns.heights, first, room);
    const std::size_t end = middle < all ? column_end(columns.heights, middle, room) : all;
    if (end == all) middle = std::min(middle, even_split(columns, first));
    columns.ends.insert(columns.ends.end(), {middle, end});
  }
  return columns;
}

std::vector<Page> pages_of(const Book& book, const Table& table) {
  const draw::Box room = room_of(book.paper);
  LogColumns columns = log_columns(table, room.width, room.height - kHead, kWritingLine);
  LogColumns closer = log_columns(table, room.width, room.height - kHead, kCloserLine);
  if (closer.pages() < columns.pages()) columns = std::move(closer);
  std::vector<Page> pages;
  for (std::size_t c = 0; c + 1 < columns.ends.size(); ++c) {
    if (columns.ends[c] == columns.ends[c + 1]) continue;
    const bool right = !columns.one && c % 2 == 1;
    if (!right) pages.push_back(blank_page(book, "Log", table.part));
    draw::Display& display = pages.back().display;
    const double left = right ? room.right() - columns.width : room.left;
    add_head(display, table, {left, room.top, columns.width, kHead});
    double y = room.top + kHead;
    for (std::size_t i = columns.ends[c]; i < columns.ends[c + 1]; ++i) {
      add_entry(display, table, table.entries[i], columns.line, {left, y, columns.width, columns.heights[i]});
      y += columns.heights[i];
    }
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
