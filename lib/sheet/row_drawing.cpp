#include "sheet/row_drawing.hpp"

#include <algorithm>
#include <cmath>

#include "draw/pieces.hpp"
#include "draw/text.hpp"
#include "draw/top.hpp"

namespace farflung::sheet {
namespace {

using cloth::RowPlace;
using cloth::SewingRow;
using draw::Anchor;
using draw::Outline;
using draw::Role;
using draw::Text;
using draw::Vec;

constexpr double kName = 8;

/// A shape with its paint, lying in the row: x along it.
struct Shape {
  Outline outline;
  draw::Paint paint;
};

/// One place of the row, inches.
struct Part {
  std::vector<Shape> shapes;
  Outline rim;
  draw::Box box;
  std::string name;  ///< "C3"; "" for fillers and sashes
  bool empty = false;
  bool filler = false;
};

/// Diagonal rows run down to the right: turned an eighth to the left they lie level.
Vec in_row(Vec p, bool on_point) {
  if (!on_point) return p;
  const double half = std::sqrt(0.5);
  return {half * (p.x + p.y), half * (p.y - p.x)};
}

void add_shape(Part& part, Outline outline, draw::Paint paint, bool on_point) {
  for (Vec& p : outline) p = in_row(p, on_point);
  if (auto* cloth = std::get_if<draw::Cloth>(&paint); cloth != nullptr && on_point) cloth->degrees -= 45;
  part.shapes.push_back({std::move(outline), paint});
}

Part part_of(const Book& book, const RowPlace& place) {
  const bool on_point = book.plan.on_point;
  Part part;
  if (place.kind == RowPlace::Kind::filler) {
    add_shape(part, draw::inches(book.plan.frame[place.frame_patch].polygon),
              draw::paint_of_frame(book.quilt, book.plan, place.frame_patch), on_point);
    part.rim = part.shapes.front().outline;
    part.filler = true;
  } else {
    for (const draw::Piece& piece : draw::pieces_in_cell(book.quilt, book.plan, place.cell)) {
      add_shape(part, piece.outline, piece.paint, on_point);
    }
    part.rim = draw::outline_of_cell(book.plan, place.cell);
    for (Vec& p : part.rim) p = in_row(p, on_point);
    part.empty = place.kind == RowPlace::Kind::empty;
    const setting::Cell& cell = book.plan.cells[place.cell];
    part.name = on_point ? setting::cell_name(cell) : column_name(cell.column);
  }
  part.box = draw::box_of(part.rim);
  return part;
}

Part sash_of(const Book& book, int patch) {
  Part part;
  add_shape(part, draw::inches(book.plan.frame[patch].polygon), draw::paint_of_frame(book.quilt, book.plan, patch),
            book.plan.on_point);
  part.rim = part.shapes.front().outline;
  part.box = draw::box_of(part.rim);
  return part;
}

std::vector<Part> parts_of(const Book& book, const SewingRow& row) {
  std::vector<Part> parts;
  for (const RowPlace& place : row.places) parts.push_back(part_of(book, place));
  return parts;
}

void add_part(draw::Display& display, const Part& part, Vec from, double scale, Vec by) {
  const auto moved = [&](Outline outline) {
    for (Vec& p : outline) p = scale * (p - from) + by;
    return outline;
  };
  for (const Shape& shape : part.shapes) {
    draw::Paint paint = shape.paint;
    if (auto* cloth = std::get_if<draw::Cloth>(&paint)) cloth->width *= scale;
    display.add(draw::Area{moved(shape.outline), paint});
    display.add(draw::Line{moved(shape.outline), 0.3, draw::kFaint, true});
  }
  if (part.empty) draw::add_empty(display, moved(part.rim), scale);
  display.add(draw::Line{moved(part.rim), 0.8, draw::kInk, true});
}

/// A clip over the top edge, its jaws to the block.
void add_clip(draw::Display& display, Vec edge) {
  const Outline body = draw::rounded({edge.x - 4, edge.y - 7, 8, 13}, 2);
  display.add(draw::Area{body, draw::kWhite});
  display.add(draw::Line{body, 1.2, draw::kInk, true});
  display.add(draw::Line{{{edge.x - 4, edge.y - 2}, {edge.x + 4, edge.y - 2}}, 0.8, draw::kInk});
}

}  // namespace

draw::Display row_drawing(const Book& book, const SewingRow& row, double width, double height) {
  std::vector<Part> parts = parts_of(book, row);
  for (const int sash : row.sashes) parts.push_back(sash_of(book, sash));
  std::stable_sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) { return a.box.left < b.box.left; });
  draw::Display display;
  if (parts.empty()) return display;
  draw::Box all = parts.front().box;
  for (const Part& part : parts) {
    const double right = std::max(all.right(), part.box.right()), bottom = std::max(all.bottom(), part.box.bottom());
    all.left = std::min(all.left, part.box.left);
    all.top = std::min(all.top, part.box.top);
    all.width = right - all.left;
    all.height = bottom - all.top;
  }
  const double scale = std::min(width / all.width, height / all.height);
  const Vec from = {all.left, all.top};
  for (const Part& part : parts) add_part(display, part, from, scale, {});
  for (std::size_t i = 0; i + 1 < parts.size(); ++i) {
    // The edges that meet: the block's or the sash's where one of the two is a triangle.
    const bool next = parts[i].filler && !parts[i + 1].filler;
    const draw::Box& edge = next ? parts[i + 1].box : parts[i].box;
    const double right = next ? edge.left : edge.right();
    const double x = scale * (right - all.left);
    const double top = scale * (edge.top - all.top), foot = scale * (edge.bottom() - all.top);
    const double heavy = std::min(2.2, 0.25 * scale * std::min(parts[i].box.width, parts[i + 1].box.width));
    display.add(draw::Line{{{x, top - 1}, {x, foot + 1}}, 1.8 * heavy, draw::kWhite});
    display.add(draw::Line{{{x, top - 1}, {x, foot + 1}}, heavy, draw::kInk});
  }
  display.width = scale * all.width;
  display.height = scale * all.height + 12;
  for (const Part& part : parts) {
    if (part.name.empty()) continue;
    const double size = std::min(kName, 0.9 * scale * part.box.width / draw::width_of(part.name, 1, true));
    display.add(Text{part.name,
                     {scale * (part.box.centre().x - all.left), scale * all.height + 10},
                     size,
                     Anchor::middle,
                     true,
                     draw::kInk,
                     Role::name});
  }
  return display;
}

draw::Display stack_drawing(const Book& book, const SewingRow& row, double width, double height) {
  const std::vector<Part> parts = parts_of(book, row);
  draw::Display display;
  display.width = width;
  display.height = height + 12;
  if (parts.empty()) return display;
  double widest = 0, highest = 0;
  for (const Part& part : parts) {
    widest = std::max(widest, part.box.width);
    highest = std::max(highest, part.box.height);
  }
  constexpr double kClip = 8;
  const double scale = std::min((height - kClip) / highest, 0.55 * width / widest);
  const auto others = static_cast<double>(parts.size() - 1);
  const double step = others > 0 ? std::min(0.3 * scale * widest, (width - scale * widest) / others) : 0;
  for (std::size_t i = parts.size(); i-- > 0;) {
    const Part& part = parts[i];
    add_part(display, part, {part.box.left, part.box.top}, scale, {static_cast<double>(i) * step, kClip});
  }
  const Part& top = parts.front();
  add_clip(display, {scale * top.box.width / 2, kClip});
  const double base = kClip + scale * highest + 10;
  const auto name = [&](const Part& part, double x, Anchor anchor) {
    const std::string words = part.name.empty() ? std::string() : part.name;
    if (!words.empty()) display.add(Text{words, {x, base}, kName, anchor, true, draw::kInk, Role::name});
  };
  name(top, 0, Anchor::left);
  if (parts.size() > 1) name(parts.back(), others * step + scale * parts.back().box.width, Anchor::right);
  return display;
}

}  // namespace farflung::sheet
