#include <algorithm>

#include "base/counted.hpp"
#include "draw/pieces.hpp"
#include "draw/text.hpp"
#include "sheet/flow.hpp"
#include "sheet/hatch.hpp"
#include "sheet/marks.hpp"
#include "sheet/rows.hpp"
#include "sheet/unit_drawing.hpp"

namespace farflung::sheet {
namespace {

using block::Block;
using block::kNone;
using draw::Anchor;
using draw::Role;
using draw::Text;
using draw::Vec;

constexpr int kDrawn = 0, kOther = 2, kOpen = 3;  ///< hatchings on the plan of the wall

int hatch_of(const Block& block) {
  if (!block.press) return kOpen;
  return *block.press == Block::Press::drawn ? kDrawn : kOther;
}

constexpr double kNamesAtMost = 8;  ///< points, of a cell's name
constexpr double kAroundName = 4;

/// How far across the middle of a cell its name may reach.
double room_for_name(const Book& book, const draw::Outline& outline) {
  return (book.plan.on_point ? 0.6 : 0.9) * draw::box_of(outline).width;
}

/// "R3 C5" in one line, or in two where the cell is small.
std::vector<std::string> name_lines(const Book& book, std::size_t cell, bool two) {
  const setting::Cell& at = book.plan.cells[cell];
  if (!two) return {setting::cell_name(at)};
  return {row_name(at.row), column_name(at.column)};
}

/// The widest name at one point.
double widest_name(const Book& book, bool two) {
  double most = 0;
  for (std::size_t cell = 0; cell < book.plan.cells.size(); ++cell) {
    for (const std::string& line : name_lines(book, cell, two)) most = std::max(most, draw::width_of(line, 1, true));
  }
  return most;
}

/// How the names of all cells stand.
struct Names {
  bool two = false;  ///< in two lines
  double size = 0;
};

/// The wall as large as lets every name stand in full size in one line, if it goes into so much; 290 points high it may
/// be in any case. Names in cells that are too small are broken.
struct Wall {
  double scale = 0;  ///< points to an inch
  Names names;
};

Wall wall_within(const Book& book, double width, double height) {
  constexpr double kLeastInOneLine = 6.5;
  double room = 1e9;
  for (std::size_t cell = 0; cell < book.plan.cells.size(); ++cell) {
    room = std::min(room, room_for_name(book, draw::outline_of_cell(book.plan, static_cast<int>(cell))));
  }
  const double wanted = (kNamesAtMost * widest_name(book, false) + kAroundName) / room;
  const double tall = std::min(height, std::max(290.0, wanted * book.plan.height.inches()));
  Wall wall;
  wall.scale = std::min(width / book.plan.width.inches(), tall / book.plan.height.inches());
  room = wall.scale * room - kAroundName;
  wall.names.two = room < kLeastInOneLine * widest_name(book, false);
  wall.names.size = std::min(kNamesAtMost, room / widest_name(book, wall.names.two));
  return wall;
}

/// A cell's name on white in its middle.
void add_cell_name(draw::Display& display, const std::vector<std::string>& lines, draw::Vec centre, double size) {
  const double lead = 1.1 * size;
  double base = centre.y + draw::kCapHeight * size / 2 - lead * static_cast<double>(lines.size() - 1) / 2;
  for (const std::string& line : lines) {
    const double wide = draw::width_of(line, size, true) + 3;
    display.add(
        draw::Area{draw::outline_of({centre.x - wide / 2, base - 0.95 * size, wide, 1.15 * size}), draw::kWhite});
    display.add(Text{line, {centre.x, base}, size, Anchor::middle, true, draw::kInk, Role::name});
    base += lead;
  }
}

/// The wall with each cell plain, hatched, or ruled level where it is not decided yet.
draw::Display drawing_of(const Book& book, const Wall& wall) {
  constexpr double kLegible = 4;
  const quilt::Quilt& quilt = book.quilt;
  const double scale = wall.scale;
  draw::Display display;
  display.width = scale * book.plan.width.inches();
  display.height = scale * book.plan.height.inches();
  for (std::size_t cell = 0; cell < book.plan.cells.size(); ++cell) {
    draw::Outline outline = draw::outline_of_cell(book.plan, static_cast<int>(cell));
    for (Vec& p : outline) p = scale * p;
    const int block = quilt.layout.block[cell];
    if (block != kNone) add_hatched(display, outline, hatch_of(quilt.blocks[block]), 4);
    display.add(draw::Line{outline, 0.7, block == kNone ? draw::kHair : draw::kInk, true});
    if (block == kNone) continue;
    if (wall.names.size < kLegible) continue;
    add_cell_name(display, name_lines(book, cell, wall.names.two), draw::box_of(outline).centre(), wall.names.size);
  }
  return display;
}

void add_patterns(Flow& flow, bool both_ways) {
  const Book& book = flow.book();
  constexpr double kSide = 108;
  for (std::size_t i = 0; i < book.quilt.patterns.size(); ++i) {
    const cloth::Piecing& piecing = book.workroom->piecing[i];
    const bool used = std::any_of(book.quilt.blocks.begin(), book.quilt.blocks.end(),
                                  [&](const Block& block) { return block.pattern == static_cast<int>(i); });
    if (!used || piecing.steps.empty()) continue;
    const block::Pattern& pattern = book.quilt.patterns[i];
    const std::string name = block::name_of(pattern);
    const draw::Box box = flow.take(kSide + 35);
    double left = box.left;
    for (const bool other : {false, true}) {
      if (other && !both_ways) break;
      const draw::Display drawing = pressing_drawing(pattern, piecing, other, kSide);
      const std::string way = other ? "The other way" : "As drawn";
      const std::string says = "How it is pressed, " + name + ": ";
      add_figure(flow.display(), says + way, drawing, {left, box.top}, 1);
      const draw::Vec base = {left, box.top + drawing.height + 13};
      flow.display().add(Text{way, base, 9, Anchor::left, true, draw::kInk, Role::name});
      if (!other) {
        flow.display().add(Text{draw::shortened(name, 9, flow.width(), true), base + draw::Vec{0, 13}, 9, Anchor::left,
                                false, draw::kInk, Role::name});
      }
      left += 230;
    }
    flow.gap(6);
  }
}

/// "R3 C5  K M": a block of a pile by its place and codes.
std::string words_of(const Book& book, int block) {
  std::string place = "spare";
  for (std::size_t cell = 0; cell < book.plan.cells.size(); ++cell) {
    if (book.quilt.layout.block[cell] == block) place = setting::cell_name(book.plan.cells[cell]);
  }
  std::string words = place + "  ";
  for (const int print : prints_dealt(book.quilt, block)) words += " " + code_of(book.quilt, print);
  return words;
}

void add_pile(Flow& flow, const std::string& name, const std::vector<int>& blocks, int hatch) {
  if (blocks.empty()) return;
  constexpr double kRow = 14, kBeforeWords = 14, kSize = 9;
  double widest = 0;
  for (const int block : blocks) widest = std::max(widest, draw::width_of(words_of(flow.book(), block), kSize));
  const int abreast = std::clamp(static_cast<int>(flow.width() / (kBeforeWords + widest + 4)), 1, 4);
  flow.gap(4);
  flow.heading(name + ": " + counted(blocks.size(), "block"), 30);
  const double width = flow.width() / abreast;
  const std::size_t tall = (blocks.size() + abreast - 1) / abreast;
  for (std::size_t r = 0; r < tall; ++r) {
    const draw::Box row = flow.take(kRow);
    for (int c = 0; c < abreast; ++c) {
      const std::size_t i = r * abreast + static_cast<std::size_t>(c);
      if (i >= blocks.size()) break;
      const double left = row.left + c * width;
      const draw::Box mark = {left, row.top + 2, 9, 9};
      add_hatched(flow.display(), draw::outline_of(mark), hatch, 3.5);
      flow.display().add(draw::Line{draw::outline_of(mark), 0.7, draw::kInk, true});
      add_word(flow.display(), words_of(flow.book(), blocks[i]), {left + kBeforeWords, row.top + 10},
               width - kBeforeWords - 4, kSize);
    }
  }
}

}  // namespace

std::vector<Page> pressing(const Book& book) {
  const cloth::Workroom& room = *book.workroom;
  const bool any_seams = std::any_of(room.piecing.begin(), room.piecing.end(),
                                     [](const cloth::Piecing& piecing) { return !piecing.steps.empty(); });
  if (book.quilt.blocks.empty() || !any_seams) return {};
  const bool decided = !room.piles.drawn.empty() || !room.piles.other.empty();
  Flow flow(book, "Pressing", decided ? "two piles, so that seams nest" : "which way each seam goes");
  if (book.quilt.setting.sashing) {
    flow.paragraph("Sashing parts the blocks: press every seam between block and sash toward the sash.");
  }
  const std::string key = " On the plan, plain: as drawn; slanting lines: the other way, every seam of the block" +
                          std::string(room.piles.undecided.empty() ? "." : "; level lines: not decided yet.");
  flow.paragraph(decided ? room.piles.says + key
                         : "No seam ends meet from block to block: nothing has to nest, press each block as drawn.");
  flow.paragraph("An iron burns and scalds: set the seam flat, press, lift; take labels and pins off first.",
                 kSmallSize, draw::kFaint);
  flow.gap(4);
  add_patterns(flow, decided);
  if (!decided) return std::move(flow).pages();
  // On what is left of the page, or on a page of its own where names would be small there.
  constexpr double kBelow = 12, kSmall = 6.5;
  flow.gap(4);
  Wall best = wall_within(book, flow.width(), std::max(290.0, flow.left_on_page() - kBelow));
  if (best.names.size < kSmall) best = wall_within(book, flow.width(), flow.height() - kBelow);
  const draw::Display wall = drawing_of(book, best);
  const draw::Box box = flow.take(wall.height + 8);
  add_figure(flow.display(), "The wall, each place plain or hatched by its pile", wall, {box.left, box.top}, 1);
  add_pile(flow, "As drawn", room.piles.drawn, kDrawn);
  add_pile(flow, "The other way", room.piles.other, kOther);
  add_pile(flow, "Not decided", room.piles.undecided, kOpen);
  return std::move(flow).pages();
}

}  // namespace farflung::sheet
