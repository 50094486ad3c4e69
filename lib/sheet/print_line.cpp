#include "sheet/print_line.hpp"

#include <algorithm>

#include "draw/text.hpp"
#include "sheet/marks.hpp"

namespace farflung::sheet {
namespace {

constexpr double kChip = 1.9;  ///< width of the snip, ems
constexpr double kBeside = 0.5;

/// From a print's snip to its name.
double before_name(const quilt::Quilt& quilt, int print, double size) {
  return size * (kChip + 2 * kBeside) + draw::width_of(code_of(quilt, print), size, true);
}

/// Where `name` parts from `other`: the beginning of that word.
std::size_t parts_at(const std::string& name, const std::string& other) {
  const auto [differs, ends] = std::mismatch(name.begin(), name.end(), other.begin(), other.end());
  std::size_t at = static_cast<std::size_t>(differs - name.begin());
  while (at > 0 && name[at - 1] != ' ') --at;
  return at;
}

}  // namespace

std::vector<std::string> name_within(const quilt::Quilt& quilt, int print, double size, double width,
                                     std::size_t most) {
  const std::string name = print_name(quilt, print);
  std::vector<std::string> lines = lines_of(name, size, width, most);
  if (draw::broken(name, size, width).size() <= most) return lines;
  std::size_t from = name.size();
  for (std::size_t i = 0; i < quilt.prints.size(); ++i) {
    const std::string other = print_name(quilt, static_cast<int>(i));
    if (other == name || lines_of(other, size, width, most) != lines) continue;
    from = std::min(from, parts_at(name, other));
  }
  if (from < name.size()) lines.back() = draw::shortened("\u2026" + name.substr(from), size, width);
  return lines;
}

double width_of_print(const quilt::Quilt& quilt, int print, double size) {
  return before_name(quilt, print, size) + draw::width_of(print_name(quilt, print), size);
}

std::vector<std::string> print_lines(const quilt::Quilt& quilt, int print, double size, double width,
                                     std::size_t most) {
  const double room = width - before_name(quilt, print, size);
  return room < 2 * size ? std::vector<std::string>() : name_within(quilt, print, size, room, most);
}

void add_print(draw::Display& display, const quilt::Quilt& quilt, int print, draw::Vec base_left, double size,
               double width, std::size_t most, double pitch) {
  double base = base_left.y;
  add_chip(display, quilt, print, {base_left.x, base - 0.95 * size, kChip * size, 1.2 * size}, 3 * size);
  const draw::Vec code = {base_left.x + (kChip + kBeside) * size, base};
  display.add(draw::Text{code_of(quilt, print), code, size, draw::Anchor::left, true, draw::kInk, draw::Role::code});
  const double x = base_left.x + before_name(quilt, print, size);
  for (const std::string& line : print_lines(quilt, print, size, width, most)) {
    display.add(draw::Text{line, {x, base}, size, draw::Anchor::left, false, draw::kInk, draw::Role::body});
    base += pitch;
  }
}

}  // namespace farflung::sheet
