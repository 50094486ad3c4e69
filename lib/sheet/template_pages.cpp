#include <algorithm>
#include <cmath>
#include <optional>

#include "cloth/ruler.hpp"
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
constexpr double kTop = 4;                      ///< above the first shelf
constexpr double kCheck = kPointsPerInch + 30;  ///< the band with the check square, at the foot of the page
constexpr double kLap = 0.25 * kPointsPerInch;  ///< by which sheets of a large template lap

/// A template or a part of one, drawn in points, the corner of its box at the origin.
struct Drawing {
  double width = 0, height = 0;
  std::vector<Segment> cutting, sewing;
  std::vector<Segment> marks;  ///< notches and grain arrow
  std::vector<Segment> joins;  ///< where parts lap and are cut from their sheet
  draw::Spot name;             ///< where its name stands
};

std::vector<Segment> edges(const draw::Outline& outline) {
  std::vector<Segment> result;
  for (std::size_t i = 0; i < outline.size(); ++i) result.push_back({outline[i], outline[(i + 1) % outline.size()]});
  return result;
}

draw::Outline on_paper(const Polygon& polygon, Vec corner) {
  draw::Outline outline = draw::inches(polygon);
  for (Vec& p : outline) p = kPointsPerInch * (p - corner);
  return outline;
}

/// An arrow both ways along the block's own upright, where the shape has room for it.
void add_grain(Drawing& drawing, const draw::Outline& sewing) {
  const double length = 0.4 * std::min(drawing.height, 3.0 * kPointsPerInch);
  const draw::Spot spot = draw::spot_within(sewing, 14, length + 10);
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
  const draw::Outline cutting = on_paper(shape.cutting, corner);
  const draw::Outline sewing = on_paper(shape.sewing, corner);
  const draw::Box box = draw::box_of(cutting);
  drawing.width = box.width;
  drawing.height = box.height;
  drawing.cutting = edges(cutting);
  drawing.sewing = edges(sewing);
  for (const Segment& side : drawing.sewing) {
    const double length = draw::length(side.to - side.from);
    if (length < 10) continue;
    const Vec outward = {(side.to.y - side.from.y) / length, -(side.to.x - side.from.x) / length};
    const Vec middle = 0.5 * (side.from + side.to);
    drawing.marks.push_back({middle, middle + 9 * outward});
  }
  add_grain(drawing, sewing);
  // The name stands beside the arrow: the shape less a strip on its left is searched for room.
  draw::Spot spot = draw::spot_within(sewing, 70, 20);
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

draw::Box box_of_name(const Drawing& drawing) {
  return {drawing.name.centre.x - 14, drawing.name.centre.y - 10, 28, 20};
}

/// What of a drawing lies within `window`.
Drawing part_of(const Drawing& whole, const draw::Box& window) {
  Drawing part;
  part.width = window.width;
  part.height = window.height;
  const Vec corner = {window.left, window.top};
  const auto take = [&](const std::vector<Segment>& from, std::vector<Segment>& to) {
    for (const Segment& segment : from) {
      if (const auto inside = clipped(segment, window)) to.push_back({inside->from - corner, inside->to - corner});
    }
  };
  take(whole.cutting, part.cutting);
  take(whole.sewing, part.sewing);
  take(whole.marks, part.marks);
  take(whole.joins, part.joins);
  part.name = {whole.name.centre - corner, whole.name.fits && window.holds(box_of_name(whole))};
  return part;
}

Drawing on_its_side(Drawing drawing) {
  const auto turned = [height = drawing.height](Vec p) { return Vec{height - p.y, p.x}; };
  for (auto* strokes : {&drawing.cutting, &drawing.sewing, &drawing.marks, &drawing.joins}) {
    for (Segment& segment : *strokes) segment = {turned(segment.from), turned(segment.to)};
  }
  drawing.name.centre = turned(drawing.name.centre);
  std::swap(drawing.width, drawing.height);
  return drawing;
}

void add_drawing(draw::Display& display, const Drawing& drawing, const std::string& name, Vec by) {
  const auto strokes = [&](const std::vector<Segment>& segments, double width, draw::Colour colour,
                           const std::vector<double>& dashes) {
    for (const Segment& segment : segments) {
      display.add(draw::Line{{segment.from + by, segment.to + by}, width, colour, false, dashes});
    }
  };
  strokes(drawing.joins, 0.6, draw::kFaint, {});
  strokes(drawing.cutting, 1.1, draw::kInk, {});
  strokes(drawing.sewing, 0.7, draw::kInk, {5, 3});
  strokes(drawing.marks, 0.8, draw::kInk, {});
  if (drawing.name.fits) add_code(display, name, drawing.name.centre + by, 14);
}

/// The allowance as it is sewn: "1/4 in", "6.35 mm".
std::string seam_words(const Book& book) {
  const Length seam = book.quilt.seam_allowance;
  if (book.quilt.units == quilt::Units::inches) return draw::spoken(seam, book.quilt.units);
  return cloth::number(seam.millimetres(), 2) + " mm";
}

void add_check_square(draw::Display& display, const Book& book) {
  const draw::Box room = room_of(book.paper);
  const bool metric = book.quilt.units != quilt::Units::inches;
  const double side = kPointsPerInch * (metric ? Length::millimetres(25).inches() : 1);
  const draw::Box square = {room.left, room.bottom() - side - 4, side, side};
  display.add(draw::Line{draw::outline_of(square), 0.9, draw::kInk, true});
  const std::string says = metric ? "2.5 cm" : "1 in";
  display.add(Text{says, square.centre(), 9, Anchor::middle, true, draw::kInk, Role::body});
  const double left = square.right() + 14;
  const double width = room.right() - left;
  double top = square.top;
  top = add_paragraph(display,
                      "Print at 100 %, without fitting to the page, and measure this square before you cut. If it is "
                      "not " +
                          says + " each way, the templates are not true either.",
                      {left, top}, width, 9) +
        4;
  add_paragraph(display,
                "Unbroken line: cut. Broken line: sew, " + seam_words(book) +
                    " inside. The arrow lies along the straight grain; the short marks meet those of the neighbour. "
                    "Parts of a large "
                    "template: cut them out along their thin lines and lap them until the crosses meet.",
                {left, top}, width, 9, draw::kFaint);
}

std::string part_for(const Book& book) { return "true scale, " + seam_words(book) + " seam allowance included"; }

/// What stands under a drawing.
struct Words {
  std::string name, counts, caption;
};

/// Templates and parts of large ones, side by side in shelves.
class Shelves {
 public:
  explicit Shelves(const Book& book) : book_(book), room_(room_of(book.paper)) { room_.height -= kCheck; }

  /// The largest drawing that a page holds.
  Vec sheet() const { return {room_.width, room_.height - kCaption - kTop}; }

  bool holds(const Drawing& drawing) const { return drawing.width <= sheet().x && drawing.height <= sheet().y; }

  void add(const Words& words, const Drawing& drawing) {
    const double wide = std::max(draw::width_of(words.counts, 8.5, true), draw::width_of(words.caption, 8));
    const double width = std::min(room_.width, std::max(drawing.width, wide));
    const double height = drawing.height + kCaption;
    if (x_ + width > room_.right() + 1e-6) new_shelf();
    if (pages_.empty() || y_ + height > room_.bottom() + 1e-6) new_page();
    draw::Display& display = pages_.back().display;
    display.add(draw::Opening{draw::Opening::Kind::figure, "Template " + words.counts + "; " + words.caption});
    add_drawing(display, drawing, words.name, {x_, y_});
    const double base = y_ + drawing.height + 14;
    add_word(display, words.counts, {x_, base}, width, 8.5, true);
    display.add(Text{draw::shortened(words.caption, 8, width),
                     {x_, base + 11},
                     8,
                     Anchor::left,
                     false,
                     draw::kFaint,
                     Role::caption});
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
    y_ = room_.top + kTop;
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

/// Whether a point lies within the cutting line: how often a ray to the right crosses it.
bool holds(const Drawing& drawing, Vec point) {
  bool inside = false;
  for (const Segment& side : drawing.cutting) {
    if ((side.from.y > point.y) == (side.to.y > point.y)) continue;
    const double along = (point.y - side.from.y) / (side.to.y - side.from.y);
    if (side.from.x + along * (side.to.x - side.from.x) > point.x) inside = !inside;
  }
  return inside;
}

/// The part of a window that the shape reaches into; empty where it does not.
draw::Box reached(const Drawing& whole, const draw::Box& window) {
  const draw::Box box = {window.left, window.top, std::min(window.right(), whole.width) - window.left,
                         std::min(window.bottom(), whole.height) - window.top};
  draw::Outline points;
  for (const Segment& side : whole.cutting) {
    if (const auto inside = clipped(side, box)) points.insert(points.end(), {inside->from, inside->to});
  }
  for (const Vec corner : draw::outline_of(box)) {
    if (holds(whole, corner)) points.push_back(corner);
  }
  return points.empty() ? draw::Box{} : draw::box_of(points);
}

struct Piece {
  Words words;
  Drawing drawing;
};

/// A large template in parts that a page holds, as they lie from left to right and down. Long parts stand upright, so
/// that several share a page; what lies beside the shape is left out.
std::vector<Piece> parts_of(const Book& book, const Template& shape, Drawing whole, Vec sheet) {
  const Vec step = {sheet.x - kLap, sheet.y - kLap};
  const int columns = std::max(1, static_cast<int>(std::ceil((whole.width - kLap) / step.x)));
  const int rows = std::max(1, static_cast<int>(std::ceil((whole.height - kLap) / step.y)));
  whole.joins = crosses(whole, step, columns, rows);
  std::vector<Piece> parts;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const draw::Box box = reached(whole, {column * step.x, row * step.y, sheet.x, sheet.y});
      if (box.width < 1 || box.height < 1) continue;
      Piece part;
      part.drawing = part_of(whole, box);
      const Vec size = {box.width, box.height};
      for (const Segment& edge : edges(draw::outline_of(draw::Box{0, 0, size.x, size.y}))) {
        part.drawing.joins.push_back(edge);
      }
      part.words.caption = "row " + std::to_string(row + 1) + ", place " + std::to_string(column + 1);
      if (size.x > size.y && size.x <= sheet.y) part.drawing = on_its_side(std::move(part.drawing));
      parts.push_back(std::move(part));
    }
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::string which = "part " + std::to_string(i + 1) + " of " + std::to_string(parts.size());
    parts[i].words.name = shape.name;
    parts[i].words.counts = shape.name + ", " + which;
    if (i > 0) continue;
    parts[i].words.counts = counts_of(shape) + ", " + which;
    parts[i].words.caption = caption_of(book.quilt, shape) + ", " + parts[i].words.caption;
  }
  std::stable_sort(parts.begin(), parts.end(),
                   [](const Piece& a, const Piece& b) { return a.drawing.height > b.drawing.height; });
  return parts;
}

/// The templates, large ones in parts no larger than `window`.
std::vector<Page> laid(const Book& book, const std::vector<Template>& shapes, Vec window) {
  Shelves shelves(book);
  std::vector<Piece> large;
  for (const Template& shape : shapes) {
    const Drawing drawing = drawn(shape);
    if (shelves.holds(drawing)) {
      shelves.add({shape.name, counts_of(shape), caption_of(book.quilt, shape)}, drawing);
      continue;
    }
    for (Piece& part : parts_of(book, shape, drawing, window)) large.push_back(std::move(part));
  }
  for (const Piece& part : large) shelves.add(part.words, part.drawing);
  return std::move(shelves).pages();
}

}  // namespace

std::vector<Page> templates(const Book& book) {
  const std::vector<Template> shapes = templates_of(book.quilt);
  const Vec sheet = Shelves(book).sheet();
  const double side = std::min(sheet.x, sheet.y);
  std::vector<Page> pages = laid(book, shapes, sheet);
  // Strips from square parts can stand beside one another whichever way they ran.
  std::vector<Page> of_squares = laid(book, shapes, {side, side});
  return of_squares.size() < pages.size() ? of_squares : pages;
}

}  // namespace farflung::sheet
