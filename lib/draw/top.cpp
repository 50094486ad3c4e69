#include "draw/top.hpp"

#include <algorithm>
#include <cmath>

#include "base/length_text.hpp"
#include "draw/pieces.hpp"
#include "draw/text.hpp"

namespace farflung::draw {
namespace {

using block::kNone;

constexpr double kReliefWidth = 0.22;            ///< inches
constexpr Colour kSeam = {0.30, 0.27, 0.26, 1};  ///< what shows between patches where a pixel is shared
constexpr Colour kWall = {0.957, 0.949, 0.933, 1};

void add_piece(Display& display, Outline outline, Paint paint, bool relief) {
  display.add(Area{outline, paint});
  if (relief) display.add(Relief{std::move(outline), kReliefWidth, 1});
}

/// Soft: boxes that grow outward, each laying a little more dark on the wall, lower than the quilt.
void add_shadow(Display& display, const Box& quilt, double reach) {
  constexpr int kSteps = 20;
  for (int i = kSteps; i >= 1; --i) {
    const double out = reach * i / kSteps;
    Box box = quilt.inset(-out);
    box.top += 0.3 * reach;
    display.add(Area{rounded(box, out), Colour{0.15, 0.13, 0.12, 0.016}});
  }
}

/// Four mitred strips around `inner`, `width` wide.
void add_binding(Display& display, const quilt::Quilt& quilt, const Box& inner, double width) {
  const Outline out = outline_of(inner.inset(-width));
  const Outline in = outline_of(inner);
  for (std::size_t side = 0; side < 4; ++side) {
    const std::size_t next = (side + 1) % 4;
    const Paint paint = cloth_of(quilt, quilt.binding->print, 90.0 * static_cast<double>(side % 2), 1000 + side);
    const Outline strip = {out[side], out[next], in[next], in[side]};
    display.add(Area{strip, paint});
    display.add(Relief{strip, width / 2, 1.2});
  }
}

void add_caption(Display& display, const quilt::Quilt& quilt, const setting::Plan& plan, const Box& whole,
                 double wall) {
  const double size = 0.3 * wall;
  const double base = whole.bottom() + 0.72 * wall;
  const std::string measured = finished_size(quilt, plan);
  const double right = width_of(measured, 0.8 * size);
  const double room = whole.width - right - 2 * size;
  display.add(Text{measured, {whole.right(), base}, 0.8 * size, Anchor::right, false, kFaint, Role::caption});
  if (room <= 4 * size) return;
  display.add(
      Text{shortened(quilt.title, size, room), {whole.left, base}, size, Anchor::left, false, kInk, Role::title});
}

std::string number(Length length, quilt::Units units) {
  if (units == quilt::Units::inches) return ruler_text(length, 8);
  const auto millimetres = static_cast<long>(std::lround(length.millimetres()));
  if (units == quilt::Units::millimetres) return std::to_string(millimetres);
  const std::string whole = std::to_string(millimetres / 10);
  return millimetres % 10 == 0 ? whole : whole + "." + std::to_string(millimetres % 10);
}

}  // namespace

TopLook pinned_up(const setting::Plan& plan) {
  return {.wall = 0.055 * std::max(plan.width, plan.height).inches(), .caption = true};
}

double binding_shown(const quilt::Quilt& quilt) { return quilt.binding ? quilt.binding->width.inches() / 8 : 0; }

std::string spoken(Length length, quilt::Units units) { return number(length, units) + " " + quilt::unit_name(units); }

std::string finished_size(const quilt::Quilt& quilt, const setting::Plan& plan) {
  return number(plan.width, quilt.units) + " × " + spoken(plan.height, quilt.units);
}

void add_empty(Display& display, const Outline& outline, double unit) {
  display.add(Area{outline, Colour{0.965, 0.962, 0.955, 1}});
  for (const Segment& segment : hatched(outline, 0.55 * unit, -45)) {
    display.add(Line{{segment.from, segment.to}, 0.05 * unit, Colour{0.80, 0.79, 0.77, 1}});
  }
  display.add(Line{outline, 0.07 * unit, Colour{0.62, 0.61, 0.60, 1}, true, {0.4 * unit, 0.25 * unit}});
}

Top top_of(const quilt::Quilt& quilt, const setting::Plan& plan, const TopLook& look) {
  const double edge = look.binding ? binding_shown(quilt) : 0;
  Display sewn;
  const double width = plan.width.inches();
  const double height = plan.height.inches();
  sewn.add(Area{outline_of({0, 0, width, height}), kSeam});
  for (std::size_t i = 0; i < plan.frame.size(); ++i) {
    add_piece(sewn, inches(plan.frame[i].polygon), paint_of_frame(quilt, plan, static_cast<int>(i)), look.relief);
  }
  for (std::size_t i = 0; i < plan.cells.size(); ++i) {
    const int cell = static_cast<int>(i);
    if (quilt.layout.block[i] == kNone) add_empty(sewn, outline_of_cell(plan, cell), 1);
    for (Piece& piece : pieces_in_cell(quilt, plan, cell)) {
      add_piece(sewn, std::move(piece.outline), piece.paint, look.relief);
    }
  }
  if (edge > 0) add_binding(sewn, quilt, {0, 0, width, height}, edge);

  const double around = edge + look.wall;
  Top top;
  top.corner = {around, around};
  // A caption takes a little more wall below than above, as a mat does.
  top.display.width = width + 2 * around;
  top.display.height = height + 2 * around + (look.caption ? 0.25 * look.wall : 0);
  const Box whole = Box{around, around, width, height}.inset(-edge);
  if (look.wall > 0) {
    top.display.add(Area{outline_of({0, 0, top.display.width, top.display.height}), kWall});
    add_shadow(top.display, whole, 0.32 * look.wall);
  }
  place(top.display, sewn, top.corner, 1);
  if (look.caption && look.wall > 0) add_caption(top.display, quilt, plan, whole, look.wall);
  return top;
}

Display cell_of(const quilt::Quilt& quilt, const setting::Plan& plan, int cell) {
  const Outline outline = outline_of_cell(plan, cell);
  const Box box = box_of(outline);
  Display on_top;
  if (quilt.layout.block[cell] == kNone) add_empty(on_top, outline, 1);
  for (Piece& piece : pieces_in_cell(quilt, plan, cell)) {
    on_top.add(Area{piece.outline, piece.paint});
    on_top.add(Relief{std::move(piece.outline), kReliefWidth, 1});
  }
  Display result;
  result.width = box.width;
  result.height = box.height;
  place(result, on_top, {-box.left, -box.top}, 1);
  return result;
}

}  // namespace farflung::draw
