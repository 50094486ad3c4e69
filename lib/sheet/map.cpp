#include "sheet/map.hpp"

#include <algorithm>
#include <cmath>

#include "base/counted.hpp"
#include "draw/pieces.hpp"
#include "draw/text.hpp"
#include "draw/top.hpp"
#include "sheet/map_cut.hpp"
#include "sheet/marks.hpp"
#include "sheet/overview.hpp"
#include "sheet/print_line.hpp"

namespace farflung::sheet {
namespace {

using block::kNone;
using draw::Anchor;
using draw::Role;
using draw::Text;
using draw::Vec;

constexpr const char* kSection = "Placement map";

/// "rows 1 to 3, places 1 to 4"
std::string range_words(const std::string& what, int first, int last) {
  if (first == last) return what + " " + std::to_string(first + 1);
  return what + "s " + std::to_string(first + 1) + " to " + std::to_string(last + 1);
}

/// One print of a block: snip, code, name in two lines where one is too short. Names are left out where several stand
/// side by side.
void add_entry(draw::Display& display, const quilt::Quilt& quilt, int print, const draw::Box& box, bool named) {
  const double chip_width = (named ? 1.25 : 1) * kCodeHeight;
  const double gap = named ? 5 : 3;
  const draw::Box chip = {box.left, box.centre().y - kCodeHeight / 2, chip_width, kCodeHeight};
  add_chip(display, quilt, print, chip, 11);
  const std::string code = code_of(quilt, print);
  const double code_left = chip.right() + gap;
  add_code(display, code, {code_left, box.centre().y}, kCodeSize, Anchor::left);
  if (!named) return;
  const double left = code_left + std::max(draw::width_of(code, kCodeSize, true), 1.1 * kCodeSize) + gap;
  constexpr double kSize = 8, kLine = 9.2;
  const std::vector<std::string> lines = name_within(quilt, print, kSize, box.right() - left, 2);
  double base = box.centre().y + kSize * draw::kCapHeight / 2 - kLine / 2 * (static_cast<double>(lines.size()) - 1);
  for (const std::string& line : lines) {
    display.add(Text{line, {left, base}, kSize, Anchor::left, false, draw::kFaint, Role::caption});
    base += kLine;
  }
}

void add_entries(draw::Display& display, const quilt::Quilt& quilt, const std::vector<int>& prints,
                 const draw::Box& box, const EntryList& list) {
  const double width = box.width / list.columns;
  for (std::size_t i = 0; i < prints.size(); ++i) {
    const int row = static_cast<int>(i) / list.columns;
    const int column = static_cast<int>(i) % list.columns;
    add_entry(display, quilt, prints[i], {box.left + column * width, box.top + row * list.pitch, width, list.pitch},
              list.named());
  }
}

/// The patches of a print, largest first.
std::vector<const draw::Piece*> own_pieces(const std::vector<draw::Piece>& pieces, int print) {
  std::vector<const draw::Piece*> own;
  for (const draw::Piece& piece : pieces) {
    if (piece.print == print) own.push_back(&piece);
  }
  std::stable_sort(own.begin(), own.end(), [](const draw::Piece* a, const draw::Piece* b) {
    return draw::area(a->outline) > draw::area(b->outline) + 1e-6;
  });
  return own;
}

/// A plate on the largest patch of each print: at full size where a patch takes it, else smaller, as a pointer to the
/// list below, which always has full size.
void add_plates(draw::Display& display, const Book& book, int cell, const std::vector<int>& prints, Vec block_corner,
                double scale) {
  const draw::Box on_top = draw::box_of(draw::outline_of_cell(book.plan, cell));
  const std::vector<draw::Piece> pieces = draw::pieces_in_cell(book.quilt, book.plan, cell);
  std::vector<draw::Box> taken;
  const auto put = [&](const draw::Piece& piece, const std::string& code, double size) {
    draw::Outline outline = piece.outline;
    for (Vec& p : outline) p = block_corner + scale * (p - Vec{on_top.left, on_top.top});
    const draw::Box plate = plate_around(code, {0, 0}, size);
    const draw::Spot spot = draw::spot_within(outline, plate.width + 2, plate.height + 2);
    const draw::Box here = plate_around(code, spot.centre, size);
    if (!spot.fits || std::any_of(taken.begin(), taken.end(), [&](const draw::Box& b) { return b.overlaps(here); })) {
      return false;
    }
    add_plate(display, code, spot.centre, size);
    taken.push_back(here);
    return true;
  };
  for (const int print : prints) {
    const std::vector<const draw::Piece*> own = own_pieces(pieces, print);
    bool done = false;
    for (const double share : {1.0, 0.75, 0.55, 0.4}) {
      for (std::size_t i = 0; i < own.size() && !done; ++i)
        done = put(*own[i], code_of(book.quilt, print), share * kCodeSize);
    }
  }
}

void add_tag(draw::Display& display, const std::string& words, Vec right_base) {
  const double size = 7.5;
  const double width = draw::width_of(words, size, true);
  const draw::Box box = {right_base.x - width - 6, right_base.y - size * 0.98, width + 6, size * 1.3};
  display.add(draw::Area{draw::rounded(box, 2), draw::kInk});
  display.add(Text{words, {right_base.x - 3, right_base.y}, size, Anchor::right, true, draw::kWhite, Role::caption});
}

void add_caption(draw::Display& display, const Book& book, int cell, const draw::Box& box) {
  const quilt::Quilt& quilt = book.quilt;
  const double base = box.top + 10;
  const std::string name = setting::cell_name(book.plan.cells[cell]);
  display.add(Text{name, {box.left, base}, 10.5, Anchor::left, true, draw::kInk, Role::name});
  const double left = box.left + draw::width_of(name, 10.5, true) + 6;
  const int block = quilt.layout.block[cell];
  double right = box.right();
  if (quilt.layout.kept[cell]) {
    add_tag(display, "kept", {right, base});
    right -= draw::width_of("kept", 7.5, true) + 10;
  }
  const std::string words = block == kNone ? "empty" : quilt.blocks[block].id;
  display.add(
      Text{draw::shortened(words, 8, right - left), {left, base}, 8, Anchor::left, false, draw::kFaint, Role::caption});
}

void add_cell(draw::Display& display, const Book& book, int cell, const draw::Box& whole) {
  const quilt::Quilt& quilt = book.quilt;
  const draw::Box box = whole.inset(kCellMargin);
  const int block = quilt.layout.block[cell];
  const std::vector<int> prints = block == kNone ? std::vector<int>() : prints_dealt(quilt, block);
  display.add(draw::Opening{draw::Opening::Kind::figure, says_of_cell(book, cell)});
  add_caption(display, book, cell, box);

  const EntryList list = list_within(quilt, whole.width);
  const draw::Box room = block_room(whole, list.height());
  const draw::Display sewn = draw::cell_of(quilt, book.plan, cell);
  draw::Box lies = draw::fitted(sewn.width, sewn.height, room);
  lies.top = room.top;
  const double scale = lies.width / sewn.width;
  draw::place(display, sewn, {lies.left, lies.top}, scale);
  draw::Outline rim = draw::outline_of_cell(book.plan, cell);
  const draw::Box on_top = draw::box_of(rim);
  for (Vec& p : rim) p = Vec{lies.left, lies.top} + scale * (p - Vec{on_top.left, on_top.top});
  if (block != kNone) {
    display.add(draw::Line{rim, 0.9, draw::kInk, true});
    add_plates(display, book, cell, prints, {lies.left, lies.top}, scale);
  }
  for (const draw::CellMark& mark : book.marks) {
    if (mark.cell == cell) draw::add_cell_mark(display, rim, mark.kind, mark.words);
  }
  if (turn_matters(quilt, cell)) {
    const double reach = scale * book.plan.block_height.inches() / 2;
    add_top_arrow(display, lies.centre(), reach + 1.5, degrees_of_cell(book, cell), kArrow - 2);
  }
  add_entries(display, quilt, prints, {box.left, lies.bottom() + kArrow, box.width, list.height()}, list);
  display.add(draw::Closing{});
}

/// The layout small, the cells of this page dark: you are here.
void add_finder(draw::Display& display, const Book& book, const std::vector<int>& shown, const draw::Box& room) {
  const draw::Box box = draw::fitted(book.plan.width.inches(), book.plan.height.inches(), room);
  const double scale = box.width / book.plan.width.inches();
  for (std::size_t i = 0; i < book.plan.cells.size(); ++i) {
    draw::Outline outline = draw::outline_of_cell(book.plan, static_cast<int>(i));
    const Vec centre = draw::inches(book.plan.cells[i].centre);
    for (Vec& p : outline) p = Vec{room.right() - box.width, box.top} + scale * (centre + 0.86 * (p - centre));
    const bool here = std::find(shown.begin(), shown.end(), static_cast<int>(i)) != shown.end();
    display.add(draw::Area{outline, draw::grey_level(here ? 0.2 : 0.86)});
  }
}

std::string legend(const Book& book, const std::vector<int>& shown) {
  const auto any = [&](auto&& is) { return std::any_of(shown.begin(), shown.end(), is); };
  std::string words = "As seen from the front.";
  if (any([&](int cell) { return turn_matters(book.quilt, cell); })) {
    words += " The black arrow stands on the block's own top edge.";
  }
  if (any([&](int cell) { return book.quilt.layout.kept[cell]; })) words += " Kept: stays where it is.";
  if (any([&](int cell) {
        return std::any_of(book.marks.begin(), book.marks.end(),
                           [cell](const auto& mark) { return mark.cell == cell; });
      })) {
    words += " Ringed: not as planned, or not sure.";
  }
  return words;
}

/// Cells that stand together on a page.
struct Window {
  int first_row = 0, last_row = 0, first_column = 0, last_column = 0;

  int rows() const { return last_row - first_row + 1; }
  int columns() const { return last_column - first_column + 1; }
};

/// What one page shows, from the top down; all of the same rows.
using Bands = std::vector<Window>;

void add_column_names(draw::Display& display, const Window& window, const CellGrid& cells, Vec corner) {
  for (int column = window.first_column; column <= window.last_column; ++column) {
    const double middle = corner.x + (column - window.first_column + 0.5) * cells.width;
    display.add(Text{column_name(column), {middle, corner.y - 6}, 13, Anchor::middle, true, draw::kInk, Role::name});
  }
}

/// The cells of a window, their names beside and above them; `corner` is the top left one's. Gives which they are.
std::vector<int> add_window(draw::Display& display, const Book& book, const Window& window, const CellGrid& cells,
                            Vec corner) {
  const draw::Box room = room_of(book.paper);
  std::vector<int> shown;
  for (int row = window.first_row; row <= window.last_row; ++row) {
    const double top = corner.y + (row - window.first_row) * cells.height;
    const double size = draw::size_within(row_name(row), 13, 9, kRowNames - 4, true);
    display.add(Text{row_name(row), {room.left, top + 15}, size, Anchor::left, true, draw::kInk, Role::name});
    if (row > window.first_row) display.add(draw::Line{{{room.left, top}, {room.right(), top}}, 0.4, draw::kHair});
    for (int column = window.first_column; column <= window.last_column; ++column) {
      const int cell = book.plan.cell_at(row, column);
      if (cell == kNone) continue;
      const double left = corner.x + (column - window.first_column) * cells.width + (row % 2 == 1 ? cells.indent : 0);
      add_cell(display, book, cell, {left, top, cells.width, cells.height});
      shown.push_back(cell);
    }
  }
  if (cells.indent == 0) add_column_names(display, window, cells, corner);
  return shown;
}

void finish_cells(draw::Display& display, const Book& book, const std::vector<int>& shown) {
  const draw::Box room = room_of(book.paper);
  add_finder(display, book, shown, {room.right() - 60, kMargin + kHeader - 8, 60, kColumnNames + 6});
  display.add(
      Text{legend(book, shown), {room.left, room.bottom() - 3}, 8, Anchor::left, false, draw::kFaint, Role::caption});
}

draw::Display cells_drawn(const Book& book, const Bands& bands) {
  const int count = static_cast<int>(bands.size());
  const CellGrid cells = grid_of(book, bands.front().columns(), count * bands.front().rows(), count);
  const draw::Box room = room_of(book.paper);
  draw::Display display = blank_page(book, kSection).display;
  std::vector<int> shown;
  double top = room.top;
  for (const Window& window : bands) {
    if (top > room.top) display.add(draw::Line{{{room.left, top}, {room.right(), top}}, 0.4, draw::kHair});
    top += kColumnNames;
    const std::vector<int> added = add_window(display, book, window, cells, {room.left + kRowNames, top});
    shown.insert(shown.end(), added.begin(), added.end());
    top += window.rows() * cells.height;
  }
  finish_cells(display, book, shown);
  return display;
}

/// Drawn late: each of these pages shows where on the whole top it is.
Page cells_page(const std::shared_ptr<const Book>& book, const Bands& bands) {
  Page page;
  page.section = kSection;
  page.part = range_words("row", bands.front().first_row, bands.front().last_row) + ", " +
              range_words("place", bands.front().first_column, bands.back().last_column);
  page.late = [book, bands] { return cells_drawn(*book, bands); };
  return page;
}

/// Cells that stand two abreast in their order, each named by its own caption.
draw::Display gathered_drawn(const Book& book, const std::vector<int>& shown, int rows) {
  const CellGrid cells = grid_of(book, 2, rows);
  const draw::Box room = room_of(book.paper);
  draw::Display display = blank_page(book, kSection).display;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const std::size_t row = i / 2;
    const double top = room.top + kColumnNames + static_cast<double>(row) * cells.height;
    if (i % 2 == 0 && i > 0) display.add(draw::Line{{{room.left, top}, {room.right(), top}}, 0.4, draw::kHair});
    add_cell(display, book, shown[i],
             {room.left + kRowNames + static_cast<double>(i % 2) * cells.width, top, cells.width, cells.height});
  }
  finish_cells(display, book, shown);
  return display;
}

Page gathered_page(const std::shared_ptr<const Book>& book, const std::vector<int>& shown, int rows) {
  const setting::Cell& first = book->plan.cells[shown.front()];
  Page page;
  page.section = kSection;
  page.part = range_words("row", first.row, book->plan.cells[shown.back()].row) + ", " +
              range_words("place", first.column, first.column);
  page.late = [book, shown, rows] { return gathered_drawn(*book, shown, rows); };
  return page;
}

Page overview_page(const Book& book) {
  Page page = blank_page(book, kSection, "the whole top");
  const draw::Box room = room_of(book.paper);
  constexpr double kWords = 40;
  const draw::Box lies = add_named_top(page.display, book, {room.left, room.top, room.width, room.height - kWords});
  std::string words = "R1 is the top row, C1 the place at its left, as seen from the front. " +
                      counted(book.plan.cells.size(), "place") + ", " +
                      counted(book.quilt.blocks.size() - quilt::spares(book.quilt).size(), "block") + " on the wall";
  const int spare = static_cast<int>(quilt::spares(book.quilt).size());
  if (spare > 0) words += ", " + std::to_string(spare) + " spare";
  words += ".";
  if (book.quilt.setting.kind != setting::Setting::Kind::straight) {
    words += " The longer rows' places are named above, the shorter rows' below.";
  }
  add_paragraph(page.display, words, {room.left, std::min(lies.bottom() + 30, room.bottom() - kWords)}, room.width, 9,
                draw::kFaint);
  return page;
}

}  // namespace

std::vector<Page> placement_map(const Book& book) {
  std::vector<Page> pages = {overview_page(book)};
  const MapCut cut = cut_of(book);
  const auto kept = std::make_shared<const Book>(book);
  for (std::size_t row = 0; row + 1 < cut.rows.size(); ++row) {
    const bool last = row + 2 == cut.rows.size();
    const auto at_once = static_cast<std::size_t>(last ? cut.bands : 1);
    Bands bands;
    for (std::size_t column = 0; column + 1 < cut.columns.size(); ++column) {
      bands.push_back({cut.rows[row], cut.rows[row + 1] - 1, cut.columns[column], cut.columns[column + 1] - 1});
      if (bands.size() < at_once && column + 2 < cut.columns.size()) continue;
      pages.push_back(cells_page(kept, bands));
      bands.clear();
    }
  }
  for (std::size_t first = 0; first < cut.gathered.size(); first += cut.at_once) {
    const std::size_t end = std::min(first + cut.at_once, cut.gathered.size());
    pages.push_back(gathered_page(kept,
                                  {cut.gathered.begin() + static_cast<std::ptrdiff_t>(first),
                                   cut.gathered.begin() + static_cast<std::ptrdiff_t>(end)},
                                  static_cast<int>(cut.at_once / 2)));
  }
  return pages;
}

}  // namespace farflung::sheet
