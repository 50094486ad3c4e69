#include "sheet/marks.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "draw/pieces.hpp"
#include "draw/text.hpp"

namespace farflung::sheet {

using block::kNone;

draw::Box plate_around(const std::string& code, draw::Vec centre, double size) {
  const double height = size * draw::kCapHeight;
  const double width = std::max(draw::width_of(code, size, true), height) + 0.42 * size;
  const double tall = height + 0.36 * size;
  return {centre.x - width / 2, centre.y - tall / 2, width, tall};
}

void add_plate(draw::Display& display, const std::string& code, draw::Vec centre, double size) {
  const draw::Outline plate = draw::rounded(plate_around(code, centre, size), 0.22 * size);
  display.add(draw::Area{plate, draw::kWhite});
  display.add(draw::Line{plate, 0.045 * size, draw::kInk, true});
  add_code(display, code, centre, size);
}

void add_code(draw::Display& display, const std::string& code, draw::Vec centre, double size, draw::Anchor anchor) {
  const draw::Vec at = {centre.x, centre.y + size * draw::kCapHeight / 2};
  display.add(draw::Text{code, at, size, anchor, true, draw::kInk, draw::Role::code});
}

void add_chip(draw::Display& display, const quilt::Quilt& quilt, int print, const draw::Box& box,
              double points_per_inch) {
  draw::Paint paint = draw::cloth_of(quilt, print, 0, 77 + static_cast<std::uint64_t>(print + 1));
  if (auto* cloth = std::get_if<draw::Cloth>(&paint)) cloth->width *= points_per_inch;
  display.add(draw::Area{draw::outline_of(box), paint});
  display.add(draw::Line{draw::outline_of(box), 0.5, draw::kFaint, true});
}

void add_top_arrow(draw::Display& display, draw::Vec centre, double reach, double degrees, double size) {
  const double angle = degrees * std::numbers::pi / 180;
  const draw::Vec up = {std::sin(angle), -std::cos(angle)};
  const draw::Vec side = {-up.y, up.x};
  const draw::Vec base = centre + reach * up;
  display.add(draw::Area{{base + 0.62 * size * side, base + size * up, base - 0.62 * size * side}, draw::kInk});
}

double degrees_of_cell(const Book& book, int cell) {
  return 90.0 * book.quilt.layout.turn[cell].quarters() + (book.plan.on_point ? 45 : 0);
}

bool turn_matters(const quilt::Quilt& quilt, int cell) {
  const int block = quilt.layout.block[cell];
  if (block == kNone) return false;
  return quilt.patterns[quilt.blocks[block].pattern].turns.size() > 1 || quilt.layout.turn[cell] != Turn();
}

std::string code_of(const quilt::Quilt& quilt, int print) {
  if (print == kNone) return "?";
  const print::Print& found = quilt.prints[print];
  return found.code.empty() ? found.id : found.code;
}

std::vector<int> prints_dealt(const quilt::Quilt& quilt, int block) {
  const block::Block& sewn = quilt.blocks[block];
  const block::Pattern& pattern = quilt.patterns[sewn.pattern];
  const bool all_fixed = std::all_of(pattern.slots.begin(), pattern.slots.end(),
                                     [](const block::Slot& slot) { return slot.print != kNone; });
  std::vector<int> result;
  for (std::size_t slot = 0; slot < pattern.slots.size(); ++slot) {
    if (pattern.slots[slot].print != kNone && !all_fixed) continue;
    const int print = quilt::print_of_slot(quilt, sewn, static_cast<int>(slot));
    if (std::find(result.begin(), result.end(), print) == result.end()) result.push_back(print);
  }
  return result;
}

std::string says_of_cell(const Book& book, int cell) {
  const quilt::Quilt& quilt = book.quilt;
  const int block = quilt.layout.block[cell];
  std::string says = setting::cell_name(book.plan.cells[cell]) + ": ";
  if (block == kNone) return says + "empty";
  says += "block " + quilt.blocks[block].id;
  const std::vector<int> prints = prints_dealt(quilt, block);
  for (std::size_t i = 0; i < prints.size(); ++i) {
    says += i == 0 ? ", " : i + 1 == prints.size() ? " and " : ", ";
    says += print_name(quilt, prints[i]) + " (" + code_of(quilt, prints[i]) + ")";
  }
  static constexpr const char* kTurns[] = {"", ", a quarter turn to the right", ", upside down",
                                           ", a quarter turn to the left"};
  says += kTurns[quilt.layout.turn[cell].quarters()];
  if (quilt.layout.kept[cell]) says += ", kept";
  return says;
}

}  // namespace farflung::sheet
