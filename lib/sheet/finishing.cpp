#include "sheet/finishing.hpp"

#include <algorithm>

#include "draw/text.hpp"
#include "sheet/flow.hpp"
#include "sheet/hatch.hpp"
#include "sheet/marks.hpp"

namespace farflung::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using draw::Text;
using draw::Vec;
using setting::Border;
using setting::FramePatch;

constexpr double kMost = 186;  ///< side of a drawing

double scale_for(const Book& book) {
  return std::min(kMost / book.workroom->top.width.inches(), kMost / book.workroom->top.height.inches());
}

draw::Outline scaled(const Polygon& polygon, double scale) {
  draw::Outline outline = draw::inches(polygon);
  for (Vec& p : outline) p = scale * p;
  return outline;
}

/// A measuring line with a head at both ends.
void add_measure(draw::Display& display, Vec from, Vec to) {
  const double size = draw::length(to - from);
  if (size < 12) return;
  const Vec way = (1 / size) * (to - from);
  const Vec side = {-way.y, way.x};
  display.add(draw::Line{{from, to}, 1, draw::kInk, false, {5, 3}});
  display.add(draw::Area{{from, from + 7.0 * way + 3.0 * side, from + 7.0 * way - 3.0 * side}, draw::kInk});
  display.add(draw::Area{{to, to - 7.0 * way + 3.0 * side, to - 7.0 * way - 3.0 * side}, draw::kInk});
}

void add_plated(draw::Display& display, const std::string& words, Vec centre, double size) {
  const double wide = draw::width_of(words, size, true) + 5;
  display.add(
      draw::Area{draw::rounded({centre.x - wide / 2, centre.y - 0.62 * size, wide, 1.24 * size}, 3), draw::kWhite});
  display.add(Text{
      words, {centre.x, centre.y + draw::kCapHeight * size / 2}, size, Anchor::middle, true, draw::kInk, Role::name});
}

draw::Box whole_of(const std::vector<const FramePatch*>& patches) {
  draw::Outline corners;
  for (const FramePatch* patch : patches) {
    const draw::Outline outline = draw::inches(patch->polygon);
    corners.insert(corners.end(), outline.begin(), outline.end());
  }
  return draw::box_of(corners);
}

std::vector<const FramePatch*> patches_of(const Book& book, int border) {
  std::vector<const FramePatch*> patches;
  for (const FramePatch& patch : book.workroom->top.frame) {
    const bool mine = patch.role == FramePatch::Role::border || patch.role == FramePatch::Role::border_corner;
    if (mine && patch.part == border) patches.push_back(&patch);
  }
  return patches;
}

/// The order in which a border's strips are sewn: sides before top and bottom; corner squares have no number.
std::vector<const FramePatch*> in_order(const std::vector<const FramePatch*>& patches) {
  std::vector<const FramePatch*> sides, ends;
  for (const FramePatch* patch : patches) {
    if (patch->role != FramePatch::Role::border) continue;
    const draw::Box box = draw::box_of(draw::inches(patch->polygon));
    (box.height > box.width ? sides : ends).push_back(patch);
  }
  sides.insert(sides.end(), ends.begin(), ends.end());
  return sides;
}

draw::Display borders_drawing(const Book& book) {
  const double scale = scale_for(book);
  draw::Display display;
  display.width = scale * book.workroom->top.width.inches();
  display.height = scale * book.workroom->top.height.inches();
  int number = 0;
  draw::Box inner = {0, 0, display.width, display.height};
  std::vector<std::pair<std::string, Vec>> numbers;
  for (std::size_t i = 0; i < book.quilt.setting.borders.size(); ++i) {
    const auto patches = patches_of(book, static_cast<int>(i));
    for (const FramePatch* patch : patches) {
      const draw::Outline outline = scaled(patch->polygon, scale);
      const bool corner = patch->role == FramePatch::Role::border_corner;
      add_hatched(display, outline, corner ? 5 : static_cast<int>(i) % 4 + 1, 4);
      display.add(draw::Line{outline, 0.9, draw::kInk, true});
    }
    if (i == 0) {
      const draw::Box all = whole_of(patches);
      const double wide = scale * book.quilt.setting.borders[0].width.inches();
      inner = draw::Box{scale * all.left, scale * all.top, scale * all.width, scale * all.height}.inset(wide);
    }
    for (const FramePatch* patch : in_order(patches)) {
      numbers.emplace_back(std::to_string(++number), draw::box_of(scaled(patch->polygon, scale)).centre());
    }
  }
  // Numbers of neighbouring borders stand beside one another, not on one another.
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    const std::size_t border = i / 4, last = (numbers.size() - 1) / 4;
    const double off = 16 * static_cast<double>(border) - 8 * static_cast<double>(last);
    const bool side = i % 4 < 2;
    add_plated(display, numbers[i].first, numbers[i].second + (side ? Vec{0, off} : Vec{off, 0}), 8);
  }
  add_measure(display, {inner.centre().x, inner.top + 2}, {inner.centre().x, inner.bottom() - 2});
  add_measure(display, {inner.left + 2, inner.centre().y}, {inner.right() - 2, inner.centre().y});
  add_plated(display, "measure here", inner.centre(), 9);
  return display;
}

constexpr const char* kAsMeasured = "Each is cut to what the middle measures plus two seam allowances. ";

std::string border_words(const Book& book, std::size_t index, int& number) {
  const quilt::Quilt& quilt = book.quilt;
  const cloth::Ruler ruler = book.workroom->list.ruler;
  const Border& border = quilt.setting.borders[index];
  const auto strips = in_order(patches_of(book, static_cast<int>(index)));
  std::string says = "Border " + std::to_string(index + 1) + ", " + cloth::said(border.width, ruler) + " finished, " +
                     print_name(quilt, border.print) + ". ";
  const Length mitre = book.workroom->list.yardage.mitre_extra;
  const Length over = border.corners == Border::Corners::mitred ? mitre : Length();
  if (strips.size() == 4) {
    const auto length = [&](const FramePatch* patch, bool tall) {
      Length low, high;
      bool first = true;
      for (const Point& p : patch->polygon) {
        const Length at = tall ? p.y : p.x;
        low = first ? at : std::min(low, at);
        high = first ? at : std::max(high, at);
        first = false;
      }
      return high - low + 2 * quilt.seam_allowance + over;
    };
    const std::string sides = cloth::said(cloth::up_to_mark(length(strips[0], true), ruler), ruler);
    const std::string ends = cloth::said(cloth::up_to_mark(length(strips[2], false), ruler), ruler);
    const std::string a = std::to_string(number + 1) + " and " + std::to_string(number + 2);
    const std::string b = std::to_string(number + 3) + " and " + std::to_string(number + 4);
    number += 4;
    says += "Sides (" + a + "): planned " + sides + ", yours ________ . Top and bottom (" + b + "): planned " + ends +
            ", yours ________ . ";
  }
  switch (border.corners) {
    case Border::Corners::butted:
      return says + kAsMeasured + "Sides first; press outward; measure across the middle again; then top and bottom.";
    case Border::Corners::cornerstone:
      return says + kAsMeasured +
             "Cut all four before any is sewn. Sides first; a corner square at each end of top and bottom, "
             "pressed toward the strip; then these.";
    case Border::Corners::mitred:
      break;
  }
  return says + "Each is cut to what the middle measures, twice the border's width and " +
         cloth::said(cloth::trimmed(mitre + 2 * quilt.seam_allowance, ruler), ruler) +
         " more, so that its ends run over alike; begin and stop a seam allowance from the corner; fold the corner "
         "and sew its mitre from the inside out.";
}

/// A drawing with what there is to do beside it, under a heading that stays with it.
void add_beside(Flow& flow, const std::string& heading, const std::string& says, const draw::Display& drawing,
                const std::vector<std::string>& words) {
  const double width = flow.width() - drawing.width - 18;
  double tall = 0;
  for (const std::string& one : words) tall += height_of(one, kBodySize, width - 18) + 8;
  flow.gap(8);
  flow.heading(heading, std::max(drawing.height, tall) + 12);
  const draw::Box box = flow.take(std::max(drawing.height, tall) + 12);
  add_figure(flow.display(), says, drawing, {box.left, box.top}, 1);
  double y = box.top;
  for (const std::string& one : words) {
    const double left = box.left + drawing.width + 18;
    add_tick(flow.display(), left + 1, y + kBodySize);
    add_paragraph(flow.display(), one, {left + 18, y}, width - 18, kBodySize);
    y += height_of(one, kBodySize, width - 18) + 8;
  }
}

void add_borders(Flow& flow) {
  const Book& book = flow.book();
  if (book.quilt.setting.borders.empty()) return;
  std::vector<std::string> words = {
      "Measure the real top through its middle, up and down and across, before a strip is cut to length: edges "
      "stretch. Pin at middles and ends, and ease."};
  int number = 0;
  for (std::size_t i = 0; i < book.quilt.setting.borders.size(); ++i) words.push_back(border_words(book, i, number));
  add_beside(flow, "Borders", "The top with its borders in the order of sewing, to be measured through the middle",
             borders_drawing(book), words);
}

draw::Display backing_drawing(const Book& book) {
  const cloth::BackingPlan& backing = book.workroom->backing;
  const cloth::Ruler ruler = book.workroom->list.ruler;
  const double scale = std::min((kMost - 14) / backing.width.inches(), (kMost - 14) / backing.height.inches());
  constexpr double kRim = 13;
  const draw::Box cloth_box = {kRim, 0, scale * backing.width.inches(), scale * backing.height.inches()};
  draw::Display display;
  display.width = cloth_box.width + kRim;
  display.height = cloth_box.height + kRim;
  add_hatched(display, draw::outline_of(cloth_box), 1, 7);
  display.add(draw::Line{draw::outline_of(cloth_box), 1.2, draw::kInk, true});
  const int panels = backing.chosen.panels;
  for (int k = 1; k < panels; ++k) {
    const double share = static_cast<double>(k) / panels;
    const Vec from = backing.chosen.across ? Vec{cloth_box.left, cloth_box.height * share}
                                           : Vec{cloth_box.left + cloth_box.width * share, 0};
    const Vec to = backing.chosen.across ? Vec{cloth_box.right(), cloth_box.height * share}
                                         : Vec{cloth_box.left + cloth_box.width * share, cloth_box.height};
    display.add(draw::Line{{from, to}, 2.4, draw::kInk});
  }
  const double wide = scale * book.workroom->top.width.inches(), high = scale * book.workroom->top.height.inches();
  const draw::Box top = {cloth_box.centre().x - wide / 2, cloth_box.centre().y - high / 2, wide, high};
  display.add(draw::Line{draw::outline_of(top), 0.9, draw::kInk, true, {4, 3}});
  add_plated(display, "the top", {top.centre().x, top.top + 0.2 * top.height}, 8.5);
  display.add(Text{cloth::said(backing.width, ruler),
                   {cloth_box.centre().x, cloth_box.bottom() + 10},
                   8,
                   Anchor::middle,
                   false,
                   draw::kInk,
                   Role::caption});
  display.add(Text{cloth::said(backing.height, ruler),
                   {kRim - 4, cloth_box.centre().y},
                   8,
                   Anchor::middle,
                   false,
                   draw::kInk,
                   Role::caption,
                   -90});
  return display;
}

void add_backing(Flow& flow) {
  const Book& book = flow.book();
  const cloth::Workroom& room = *book.workroom;
  const cloth::Ruler ruler = room.list.ruler;
  std::vector<std::string> words = {
      "Backing" + (book.quilt.backing ? ", " + print_name(book.quilt, book.quilt.backing->print) : std::string()) +
      ": " + room.backing.chosen.says + "; " + room.backing.why + "."};
  if (room.backing.chosen.panels > 1) {
    words.push_back("Cut the selvages off, sew the panels with " + cloth::said(room.list.yardage.backing_seam, ruler) +
                    " seams, press them open.");
  }
  words.push_back(room.batting.says);
  add_beside(flow, "Backing and batting", "The backing with its seams, the top upon it", backing_drawing(book), words);
}

/// Two strips at right angles, face to face, sewn from corner to corner.
draw::Display join_drawing() {
  draw::Display display;
  display.width = 132;
  display.height = 118;
  constexpr double kWide = 44;
  const draw::Outline over = draw::outline_of({0, 14, 56 + kWide, kWide});
  add_hatched(display, over, 0);
  display.add(draw::Line{over, 1, draw::kInk, true});
  const draw::Outline under = draw::outline_of({56, 14, kWide, 100});
  add_hatched(display, under, 1);
  display.add(draw::Line{under, 1, draw::kInk, true});
  display.add(draw::Line{{{56, 14}, {56 + kWide, 14 + kWide}}, 1.6, draw::kInk, false, {4, 2.5}});
  display.add(draw::Line{{{66, 14}, {56 + kWide, 4 + kWide}}, 0.8, draw::kInk});
  add_plated(display, "sew", {69, 47}, 8);
  display.add(Text{"trim", {106, 24}, 8, Anchor::left, true, draw::kInk, Role::name});
  return display;
}

void add_binding(Flow& flow) {
  const Book& book = flow.book();
  const cloth::Workroom& room = *book.workroom;
  const cloth::Ruler ruler = room.list.ruler;
  std::vector<std::string> words;
  if (room.binding) {
    words.push_back("Binding, " + print_name(book.quilt, book.quilt.binding->print) + ": " + room.binding->says);
    words.emplace_back(
        "Join the strips on the diagonal, face to face at right angles; trim to a seam allowance, press "
        "open. Fold in half along the length and press.");
    words.emplace_back(
        "Sew to the trimmed quilt's edge, raw edges together; stop a seam allowance before each corner, fold up and "
        "back down, and go on. Join the ends on the diagonal too; turn over and sew down by hand.");
  }
  for (const cloth::Purchase& part : room.by_part) {
    if (part.what != "sleeve") continue;
    words.push_back("Hanging sleeve: " + part.says.substr(0, part.says.find(" Straightening")) + " Cut " +
                    cloth::said(cloth::up_to_mark(room.list.yardage.sleeve_cut, ruler), ruler) +
                    " wide, hem the ends, sew into a tube and catch it by hand below the top edge.");
  }
  if (room.binding) {
    add_beside(flow, "Binding and sleeve", "Two binding strips joined on the diagonal", join_drawing(), words);
    return;
  }
  flow.gap(8);
  flow.heading("Hanging sleeve", 60);
  for (const std::string& one : words) flow.tick(one);
}

}  // namespace

std::vector<Page> finishing(const Book& book) {
  if (book.plan.cells.empty()) return {};
  Flow flow(book, "Finishing", "borders, backing, binding");
  add_borders(flow);
  add_backing(flow);
  add_binding(flow);
  return std::move(flow).pages();
}

std::vector<Page> cautions_page(const Book& book) {
  Flow flow(book, "Cautions", "read before the first cut");
  flow.gap(6);
  for (const std::string& one : book.workroom->cautions) {
    flow.paragraph(one, 14);
    flow.gap(6);
  }
  return std::move(flow).pages();
}

}  // namespace farflung::sheet
