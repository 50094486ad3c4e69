#include "draw/cell_marks.hpp"

#include <algorithm>
#include <cmath>

#include "draw/pieces.hpp"
#include "draw/text.hpp"

namespace farflung::draw {
namespace {

constexpr Colour kRing = {0.62, 0.03, 0.08, 1};  ///< a dark red: near black where there is no colour

Outline shrunk(const Outline& outline, double by) {
  const Box box = box_of(outline);
  const double share = 1 - 2 * by / std::min(box.width, box.height);
  Outline inner = outline;
  for (Vec& p : inner) p = box.centre() + share * (p - box.centre());
  return inner;
}

void add_plate_of_words(Display& display, const Box& cell, CellMark::Kind kind, const std::string& words) {
  const double side = std::min(cell.width, cell.height);
  const double size = size_within(words, 0.17 * side, 0.03 * side, 0.8 * side, true);
  const double width = width_of(words, size, true) + 0.9 * size;
  const Vec middle = {cell.centre().x, cell.bottom() - 0.24 * side};
  const Box plate = {middle.x - width / 2, middle.y - 0.75 * size, width, 1.5 * size};
  const bool wrong = kind == CellMark::Kind::wrong;
  display.add(Area{rounded(plate, 0.25 * size), wrong ? kRing : kWhite});
  display.add(Line{rounded(plate, 0.25 * size), 0.1 * size, wrong ? kWhite : kRing, true, {}});
  display.add(Text{words,
                   {middle.x, middle.y + kCapHeight * size / 2},
                   size,
                   Anchor::middle,
                   true,
                   wrong ? kWhite : kInk,
                   Role::caption,
                   0});
}

void add_ring(Display& display, const Outline& outline, CellMark::Kind kind) {
  const Box box = box_of(outline);
  const double side = std::min(box.width, box.height);
  const Outline ring = shrunk(outline, 0.055 * side);
  display.add(Line{ring, 0.1 * side, kWhite, true, {}});
  const std::vector<double> dashes =
      kind == CellMark::Kind::unsure ? std::vector<double>{0.1 * side, 0.07 * side} : std::vector<double>{};
  display.add(Line{ring, 0.055 * side, kRing, true, dashes});
}

}  // namespace

void add_cell_mark(Display& display, const Outline& outline, CellMark::Kind kind, const std::string& words) {
  add_ring(display, outline, kind);
  if (!words.empty()) add_plate_of_words(display, box_of(outline), kind, words);
}

void add_cell_marks(Display& display, const setting::Plan& plan, Vec corner, double scale,
                    const std::vector<CellMark>& marks) {
  const auto outline_of = [&](const CellMark& mark) {
    Outline outline = outline_of_cell(plan, mark.cell);
    for (Vec& p : outline) p = corner + scale * p;
    return outline;
  };
  for (const CellMark& mark : marks) add_ring(display, outline_of(mark), mark.kind);
  // Plates over all the rings: on point a neighbour's ring would cross them.
  for (const CellMark& mark : marks) {
    if (!mark.words.empty()) add_plate_of_words(display, box_of(outline_of(mark)), mark.kind, mark.words);
  }
}

}  // namespace farflung::draw
