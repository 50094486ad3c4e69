#include <algorithm>
#include <cmath>
#include <optional>

#include "draw/text.hpp"
#include "draw/top.hpp"
#include "sheet/marks.hpp"
#include "sheet/templates.hpp"

namespace farflung::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using draw::Segment;
using draw::Text;
using draw::Vec;

constexpr double kCaption = 34;  ///< the words under a template
constexpr double kGap = 16;
constexpr double kCheck = kPointsPerInch + 30;  ///< the band with the check square, at the foot of the page
constexpr double kLap = 0.5 * kPointsPerInch;   ///< by which sheets of a large template lap

/// A template drawn in points, the corner of its cutting line's box at the origin.
struct Drawing {
  double width = 0, height = 0;
  draw::Outline cutting, sewing;
  std::vector<Segment> marks;  ///< notches and grain arrow
  draw::Spot name;             ///< where its name stands
};

draw::Outline on_paper(const Polygon& polygon, Vec corner) {
  draw::Outline outline = draw::inches(polygon);
  for (Vec& p : outline) p = kPointsPerInch * (p - corner);
  return outline;
}

/// An arrow both ways along the block's own upright, where the shape has room for it.
void add_grain(Drawing& drawing) {
  const double length = 0.4 * std::min(drawing.height, 3.0 * kPointsPerInch);
  const draw::Spot spot = draw::spot_within(drawing.sewing, 14, length + 10);
  if (!spot.fits) return;
  const Vec top = {spot.centre.x, spot.centre.y - length / 2};
  const Vec foot = {spot.centre.x, spot.centre.y + length / 2};
  drawing.marks.push_back({top, foot});
  for (const double side : {-1.0, 1.0}) {
    drawing.marks.push_back({top, top + Vec{3.5 * side, 7}});
    drawing.marks.push_back({foot, foot + Vec{3.5 * side, -7}});
  }
}

Drawing drawn(const Template& shape) {
  Drawing drawing;
  const Vec corner = [&] {
    const draw::Box box = draw::box_of(draw::inches(shape.cutting));
    return Vec{box.left, box.top};
  }();
  drawing.cutting = on_paper(shape.cutting, corner);
  drawing.sewing = on_paper(shape.sewing, corner);
  const draw::Box box = draw::box_of(drawing.cutting);
  drawing.width = box.width;
  drawing.height = box.height;
  const std::size_t n = drawing.sewing.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec a = drawing.sewing[i], b = drawing.sewing[(i + 1) % n];
    const double length = draw::length(b - a);
    if (length < 10) continue;
    const Vec outward = {(b.y - a.y) / length, -(b.x - a.x) / length};
    const Vec middle = 0.5 * (a + b);
    drawing.marks.push_back({middle, middle + 9 * outward});
  }
  add_grain(drawing);
  // The name stands beside the arrow: the shape less a strip on its left is searched for room.
  draw::Spot spot = draw::spot_within(drawing.sewing, 70, 20);
  if (spot.fits) spot.centre.x -= 22;
  drawing.name = spot;
  return drawing;
}

std::string caption_of(const quilt::Quilt& quilt, const Template& shape) {
  std::string words = quilt.patterns[shape.pattern].name + ", ";
  for (std::size_t i = 0; i < shape.slots.size(); ++i) words += (i == 0 ? "" : " and ") + shape.slots[i];
  return words;
}

std::string counts_of(const Template& shape) {
  std::string words = shape.name + ": cut " + std::to_string(shape.count);
  if (shape.reversed > 0) words += " and " + std::to_string(shape.reversed) + " turned over";
  return words + " for each block";
}

/// The part of a segment within a box (Liang and Barsky 1984).
std::optional<Segment> clipped(const Segment& segment, const draw::Box& box) {
  double from = 0, to = 1;
  const Vec step = segment.to - segment.from;
  const double moves[] = {-step.x, step.x, -step.y, step.y};
  const double rooms[] = {segment.from.x - box.left, box.right() - segment.from.x, segment.from.y - box.top,
                          box.bottom() - segment.from.y};
  for (int side = 0; side < 4; ++side) {
    if (moves[side] == 0) {
      if (rooms[side] < 0) return std::nullopt;
      continue;
    }
    const double at = rooms[side] / moves[side];
    if (moves[side] < 0) {
      from = std::max(from, at);
    } else {
      to = std::min(to, at);
    }
  }
  if (from >= to) return std::nullopt;
  return Segment{segment.from + from * step, segment.from + to * step};
}

std::vector<Segment> edges(const draw::Outline& outline) {
  std::vector<Segment> result;
  for (std::size_t i = 0; i < outline.size(); ++i) result.push_back({outline[i], outline[(i + 1) % outline.size()]});
  return result;
}

/// Draws what of the template lies within `window` (in its own points), moved by `by`.
void add_drawing(draw::Display& display, const Drawing& drawing, const std::string& name, const draw::Box& window,
                 Vec by) {
  const auto strokes = [&](const std::vector<Segment>& segments, double width, const std::vector<double>& dashes) {
    for (const Segment& segment : segments) {
      const auto part = clipped(segment, window);
      if (part) display.add(draw::Line{{part->from + by, part->to + by}, width, draw::kInk, false, dashes});
    }
  };
  strokes(edges(drawing.cutting), 1.1, {});
  strokes(edges(drawing.sewing), 0.7, {5, 3});
  strokes(drawing.marks, 0.8, {});
  const draw::Box words = {drawing.name.centre.x - 14, drawing.name.centre.y - 10, 28, 20};
  if (drawing.name.fits && window.holds(words)) add_code(display, name, drawing.name.centre + by, 14);
}

void add_check_square(draw::Display& display, const Book& book) {
  const draw::Box room = room_of(book.paper);
  const draw::Box square = {room.left, room.bottom() - kPointsPerInch - 4, kPointsPerInch, kPointsPerInch};
  display.add(draw::Line{draw::outline_of(square), 0.9, draw::kInk, true});
  display.add(Text{"1 in", square.centre(), 9, Anchor::middle, true, draw::kInk, Role::body});
  display.add(Text{"2.54 cm", square.centre() + Vec{0, 12}, 8, Anchor::middle, false, draw::kFaint, Role::body});
  const double left = square.right() + 14;
  const double width = room.right() - left;
  double top = square.top;
  top = add_paragraph(display,
                      "Print at 100 %, without fitting to the page, and measure this square before you cut. If it is "
                      "not one inch each way, the templates are not true either.",
                      {left, top}, width, 9) +
        4;
  add_paragraph(display,
                "Unbroken line: cut. Broken line: sew, " + draw::spoken(book.quilt.seam_allowance, book.quilt.units) +
                    " inside. The arrow lies along the straight grain; the short marks meet those of the neighbour.",
                {left, top}, width, 9, draw::kFaint);
}

std::string part_for(const Book& book) {
  return "true scale, " + draw::spoken(book.quilt.seam_allowance, book.quilt.units) + " seam allowance included";
}

/// Small templates, side by side in shelves.
class Shelves {
 public:
  explicit Shelves(const Book& book) : book_(book), room_(room_of(book.paper)) { room_.height -= kCheck; }

  bool holds(const Drawing& drawing) const {
    return drawing.width <= room_.width && drawing.height + kCaption <= room_.height;
  }

  void add(const Template& shape, const Drawing& drawing) {
    const std::string caption = caption_of(book_.quilt, shape);
    const std::string counts = counts_of(shape);
    const double words = std::max(draw::width_of(counts, 8.5, true), draw::width_of(caption, 8));
    const double width = std::min(room_.width, std::max(drawing.width, words));
    const double height = drawing.height + kCaption;
    if (x_ + width > room_.right() + 1e-6) new_shelf();
    if (pages_.empty() || y_ + height > room_.bottom() + 1e-6) new_page();
    draw::Display& display = pages_.back().display;
    display.add(draw::Opening{draw::Opening::Kind::figure, "Template " + counts + "; " + caption});
    add_drawing(display, drawing, shape.name, draw::Box{0, 0, drawing.width, drawing.height}.inset(-2), {x_, y_});
    const double base = y_ + drawing.height + 14;
    add_word(display, counts, {x_, base}, width, 8.5, true);
    display.add(
        Text{draw::shortened(caption, 8, width), {x_, base + 11}, 8, Anchor::left, false, draw::kFaint, Role::caption});
    display.add(draw::Closing{});
    x_ += width + kGap;
    tallest_ = std::max(tallest_, height);
  }

  std::vector<Page> pages() && { return std::move(pages_); }

 private:
  void new_shelf() {
    x_ = room_.left;
    y_ += tallest_ + kGap;
    tallest_ = 0;
  }
  void new_page() {
    pages_.push_back(blank_page(book_, "Templates", part_for(book_)));
    add_check_square(pages_.back().display, book_);
    x_ = room_.left;
    y_ = room_.top + 4;
    tallest_ = 0;
  }

  const Book& book_;
  draw::Box room_;
  std::vector<Page> pages_;
  double x_ = 0, y_ = 0, tallest_ = 0;
};

/// Crosses along the lines on which sheets are joined, two inches apart: the same on both sheets.
std::vector<Segment> crosses(const Drawing& drawing, Vec step, int columns, int rows) {
  constexpr double kApart = 2 * kPointsPerInch;
  constexpr double kArm = 6;
  std::vector<Segment> result;
  const auto cross = [&](Vec at) {
    result.push_back({at - Vec{kArm, 0}, at + Vec{kArm, 0}});
    result.push_back({at - Vec{0, kArm}, at + Vec{0, kArm}});
  };
  for (int k = 1; k < columns; ++k) {
    for (double y = kApart / 2; y < drawing.height; y += kApart) cross({k * step.x + kLap / 2, y});
  }
  for (int k = 1; k < rows; ++k) {
    for (double x = kApart / 2; x < drawing.width; x += kApart) cross({x, k * step.y + kLap / 2});
  }
  return result;
}

/// A large template over several sheets, left to right and down.
std::vector<Page> spread(const Book& book, const Template& shape, const Drawing& drawing) {
  const draw::Box room = room_of(book.paper);
  const double words = 18;
  const Vec sheet = {room.width, room.height - kCheck - words};
  const Vec step = {sheet.x - kLap, sheet.y - kLap};
  const int columns = std::max(1, static_cast<int>(std::ceil((drawing.width - kLap) / step.x)));
  const int rows = std::max(1, static_cast<int>(std::ceil((drawing.height - kLap) / step.y)));
  const std::vector<Segment> joins = crosses(drawing, step, columns, rows);
  std::vector<Page> pages;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      Page page = blank_page(book, "Templates", part_for(book));
      add_check_square(page.display, book);
      const draw::Box window = {column * step.x, row * step.y, sheet.x, sheet.y};
      const Vec by = Vec{room.left, room.top + words} - Vec{window.left, window.top};
      const std::string number = "sheet " + std::to_string(row * columns + column + 1) + " of " +
                                 std::to_string(rows * columns) + ", row " + std::to_string(row + 1) + " place " +
                                 std::to_string(column + 1) + ": lap the sheets until the crosses meet";
      const std::string said = counts_of(shape) + "; " + caption_of(book.quilt, shape) + "; " + number;
      page.display.add(draw::Opening{draw::Opening::Kind::figure, "Template " + said});
      add_word(page.display, said, {room.left, room.top + 9}, room.width, 8.5);
      add_drawing(page.display, drawing, shape.name, window, by);
      for (const Segment& mark : joins) {
        if (const auto part = clipped(mark, window)) {
          page.display.add(draw::Line{{part->from + by, part->to + by}, 0.6, draw::kFaint});
        }
      }
      page.display.add(draw::Closing{});
      pages.push_back(std::move(page));
    }
  }
  return pages;
}

}  // namespace

std::vector<Page> templates(const Book& book) {
  Shelves shelves(book);
  std::vector<Page> large;
  for (const Template& shape : templates_of(book.quilt)) {
    const Drawing drawing = drawn(shape);
    if (shelves.holds(drawing)) {
      shelves.add(shape, drawing);
      continue;
    }
    for (Page& page : spread(book, shape, drawing)) large.push_back(std::move(page));
  }
  std::vector<Page> pages = std::move(shelves).pages();
  for (Page& page : large) pages.push_back(std::move(page));
  return pages;
}

}  // namespace farflung::sheet
