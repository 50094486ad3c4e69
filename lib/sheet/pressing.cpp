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

/// The wall with each cell plain, hatched, or ruled level where it is not decided yet.
draw::Display plan_of_wall(const Book& book, double width, double height) {
  const quilt::Quilt& quilt = book.quilt;
  const double scale = std::min(width / book.plan.width.inches(), height / book.plan.height.inches());
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
    const std::string words = setting::cell_name(book.plan.cells[cell]);
    const draw::Box box = draw::box_of(outline);
    const double room = (book.plan.on_point ? 0.6 : 0.9) * box.width - 5;
    const double size = std::min(8.0, room / draw::width_of(words, 1, true));
    if (size < 3.5) continue;
    const Vec at = {box.centre().x, box.centre().y + draw::kCapHeight * size / 2};
    const double wide = draw::width_of(words, size, true) + 3;
    display.add(draw::Area{draw::outline_of({at.x - wide / 2, at.y - 0.95 * size, wide, 1.15 * size}), draw::kWhite});
    display.add(Text{words, at, size, Anchor::middle, true, draw::kInk, Role::name});
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
  constexpr int kAbreast = 4;
  constexpr double kRow = 14;
  flow.gap(4);
  flow.heading(name + ": " + counted(blocks.size(), "block"), 30);
  const double width = flow.width() / kAbreast;
  const std::size_t tall = (blocks.size() + kAbreast - 1) / kAbreast;
  for (std::size_t r = 0; r < tall; ++r) {
    const draw::Box row = flow.take(kRow);
    for (int c = 0; c < kAbreast; ++c) {
      const std::size_t i = r * kAbreast + static_cast<std::size_t>(c);
      if (i >= blocks.size()) break;
      const double left = row.left + c * width;
      const draw::Box mark = {left, row.top + 2, 9, 9};
      add_hatched(flow.display(), draw::outline_of(mark), hatch, 3.5);
      flow.display().add(draw::Line{draw::outline_of(mark), 0.7, draw::kInk, true});
      add_word(flow.display(), words_of(flow.book(), blocks[i]), {left + 14, row.top + 10}, width - 18, 9);
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
  const draw::Display wall = plan_of_wall(book, flow.width(), 290);
  flow.gap(4);
  const draw::Box box = flow.take(wall.height + 8);
  add_figure(flow.display(), "The wall, each place plain or hatched by its pile", wall, {box.left, box.top}, 1);
  add_pile(flow, "As drawn", room.piles.drawn, kDrawn);
  add_pile(flow, "The other way", room.piles.other, kOther);
  add_pile(flow, "Not decided", room.piles.undecided, kOpen);
  return std::move(flow).pages();
}

}  // namespace farflung::sheet
