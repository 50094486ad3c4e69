#include "sheet/print_line.hpp"

#include <algorithm>

#include "draw/text.hpp"
#include "sheet/marks.hpp"

namespace farflung::sheet {
namespace {

constexpr double kChip = 1.9;  ///< width of the snip, ems
constexpr double kGap = 0.5;

}  // namespace

double width_of_print(const quilt::Quilt& quilt, int print, double size) {
  return size * (kChip + 2 * kGap) + draw::width_of(code_of(quilt, print), size, true) +
         draw::width_of(print_name(quilt, print), size);
}

double add_print(draw::Display& display, const quilt::Quilt& quilt, int print, draw::Vec base_left, double size,
                 double width) {
  const double base = base_left.y;
  add_chip(display, quilt, print, {base_left.x, base - 0.95 * size, kChip * size, 1.2 * size}, 3 * size);
  double x = base_left.x + (kChip + kGap) * size;
  const std::string code = code_of(quilt, print);
  display.add(draw::Text{code, {x, base}, size, draw::Anchor::left, true, draw::kInk, draw::Role::code});
  x += draw::width_of(code, size, true) + kGap * size;
  const double room = base_left.x + width - x;
  if (room < 2 * size) return x;
  const std::string name = draw::shortened(print_name(quilt, print), size, room);
  display.add(draw::Text{name, {x, base}, size, draw::Anchor::left, false, draw::kInk, draw::Role::body});
  return x + draw::width_of(name, size);
}

}  // namespace farflung::sheet
