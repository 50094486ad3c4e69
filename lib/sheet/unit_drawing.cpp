#include "sheet/unit_drawing.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <sstream>

#include "draw/text.hpp"
#include "sheet/hatch.hpp"
#include "sheet/lettering.hpp"

namespace farflung::sheet {
namespace {

using block::Pattern;
using block::Pressing;
using block::Unit;
using draw::Anchor;
using draw::Role;
using draw::Text;
using draw::Vec;

constexpr double kApart = 5;   ///< points between the parts of a step
constexpr double kMost = 26;   ///< points to the inch
constexpr double kArrow = 13;  ///< length of a pressing arrow

std::vector<int> patches_of(const cloth::Piecing& piecing, Unit unit) {
  if (unit.kind == Unit::Kind::patch) return {unit.index};
  return piecing.steps[unit.index].patches;
}

/// The mean of the boxes' middles, weighted by area: where a unit's weight lies. Inches.
Vec middle_of(const Pattern& pattern, const std::vector<int>& patches) {
  Vec sum;
  double weight = 0;
  for (const int patch : patches) {
    const draw::Outline outline = draw::inches(pattern.patches[patch].polygon);
    const double area = std::max(draw::area(outline), 1e-6);
    sum = sum + area * draw::box_of(outline).centre();
    weight += area;
  }
  return (1 / weight) * sum;
}

Vec unit_vector(Vec v) {
  const double size = draw::length(v);
  return size > 1e-9 ? (1 / size) * v : Vec{};
}

void add_arrow(draw::Display& display, Vec from, Vec to) {
  const Vec way = unit_vector(to - from);
  const Vec side = {-way.y, way.x};
  const Vec neck = to - 5.0 * way;
  // A white edge keeps it apart from hatching.
  display.add(draw::Line{{from, neck}, 3.4, draw::kWhite});
  display.add(draw::Area{{to + 1.5 * way, neck + 4.2 * side, neck - 4.2 * side}, draw::kWhite});
  display.add(draw::Line{{from, neck}, 1.5, draw::kInk});
  display.add(draw::Area{{to, neck + 3.0 * side, neck - 3.0 * side}, draw::kInk});
}

/// Across a seam at `at`: `way` points to the side that the allowance goes to.
void add_press(draw::Display& display, Pressing::Kind kind, Vec at, Vec way, double length) {
  switch (kind) {
    case Pressing::Kind::toward:
      return add_arrow(display, at - 0.5 * length * way, at + 0.5 * length * way);
    case Pressing::Kind::open:
      add_arrow(display, at, at + 0.6 * length * way);
      return add_arrow(display, at, at - 0.6 * length * way);
    case Pressing::Kind::spun:
      display.add(draw::Area{draw::circle(at, 0.3 * length), draw::kWhite});
      display.add(draw::Line{draw::circle(at, 0.3 * length), 1.4, draw::kInk, true});
      return;
  }
}

/// The seam's normal, toward the middle of that side of it.
Vec way_to(const Pattern& pattern, const cloth::Seam& seam, const std::vector<int>& along) {
  const Vec from = draw::inches(seam.from), to = draw::inches(seam.to);
  const Vec line = unit_vector(to - from);
  Vec way = {-line.y, line.x};
  if (along.empty()) return way;
  const Vec off = middle_of(pattern, along) - from;
  return off.x * way.x + off.y * way.y < 0 ? -1.0 * way : way;
}

/// Of a step's seam: to the side that its pressing names.
Vec press_way(const Pattern& pattern, const cloth::Step& step, const cloth::Seam& seam) {
  const bool toward_b = step.press.kind == Pressing::Kind::toward &&
                        step.press.toward == step.join[static_cast<std::size_t>(seam.side_b)];
  const bool toward_a = step.press.kind != Pressing::Kind::toward ||
                        step.press.toward == step.join[static_cast<std::size_t>(seam.side_a)];
  // Of more than two parts, those that meet beside the one pressed toward go its way too.
  return way_to(pattern, seam, toward_b || !toward_a ? seam.along_b : seam.along_a);
}

draw::Outline moved(const Polygon& polygon, Vec corner, double scale, Vec by) {
  draw::Outline outline = draw::inches(polygon);
  for (Vec& p : outline) p = scale * (p - corner) + by;
  return outline;
}

/// The first letters of a name's words, capitals: "L1" of "light 1".
std::string heads_of(const std::string& name) {
  std::string heads;
  std::istringstream words(name);
  for (std::string word; words >> word;) heads += static_cast<char>(std::toupper(static_cast<unsigned char>(word[0])));
  return heads;
}

/// Words about a place, upright or turned to run up the page.
struct Label {
  std::string words;
  double size = 0;
  bool turned = false;

  draw::Box plate(Vec centre) const {
    const double wide = draw::width_of(words, size, true) + 2, tall = 0.94 * size;
    return turned ? draw::Box{centre.x - tall / 2, centre.y - wide / 2, tall, wide}
                  : draw::Box{centre.x - wide / 2, centre.y - tall / 2, wide, tall};
  }

  Text text(Vec centre) const {
    const double drop = draw::kCapHeight * size / 2;
    return {words,      centre + (turned ? Vec{drop, 0} : Vec{0, drop}),
            size,       Anchor::middle,
            true,       draw::kInk,
            Role::code, turned ? -90.0 : 0.0};
  }
};

/// Where in a patch words may stand, best first: in the midst of its widest place, then along it, clear of its arrows.
std::vector<Vec> places_in(const draw::Outline& outline, const Label& label) {
  const draw::Box plate = label.plate({});
  std::vector<Vec> places;
  const draw::Spot spot = draw::spot_within(outline, plate.width, plate.height);
  if (spot.fits) places.push_back(spot.centre);
  const draw::Box box = draw::box_of(outline);
  for (const double share : {0.0, -0.25, 0.25, -0.4, 0.4}) {
    places.push_back(box.centre() + (box.width > box.height ? Vec{share * box.width, 0} : Vec{0, share * box.height}));
  }
  return places;
}

bool lies_within(const draw::Outline& outline, const draw::Box& plate) {
  const draw::Outline corners = draw::outline_of(plate.inset(0.05));
  return std::all_of(corners.begin(), corners.end(), [&](Vec corner) { return draw::holds(outline, corner); });
}

/// The slot's name where it fits, or else its code; turned where the patch is too narrow, and a code that no turning
/// lets fit stands across the patch's edges all the same.
void add_slot(draw::Display& display, Lettering& lettering, const std::string& slot, const std::string& code,
              const draw::Outline& outline) {
  const auto put = [&](const Label& label, bool within) {
    const std::vector<Vec> places = places_in(outline, label);
    return std::any_of(places.begin(), places.end(), [&](Vec centre) {
      return (!within || lies_within(outline, label.plate(centre))) &&
             lettering.add_on_plate(display, draw::outline_of(label.plate(centre)), label.text(centre));
    });
  };
  for (const std::string& words : {slot, code}) {
    for (const double size : {9.0, 8.0, kLeastSize}) {
      if (put({words, size, false}, true) || put({words, size, true}, true)) return;
    }
  }
  put({code, kLeastSize, false}, false);
}

}  // namespace

std::string slot_code(const Pattern& pattern, int slot) {
  const std::string& name = pattern.slots[slot].name;
  if (name.size() <= 2) return name;
  if (name == "background") return "BG";
  if (std::string heads = heads_of(name); heads.size() > 1) return heads;
  std::size_t length = 2;
  const auto another_begins_so = [&](const block::Slot& other) {
    return other.name != name && other.name.compare(0, length, name, 0, length) == 0;
  };
  while (length < name.size() && std::any_of(pattern.slots.begin(), pattern.slots.end(), another_begins_so)) ++length;
  return draw::capital(name.substr(0, length));
}

draw::Display unit_drawing(const Pattern& pattern, const cloth::Piecing& piecing, int index, double width,
                           double height) {
  const cloth::Step& step = piecing.steps[index];
  const double most = std::min(width, height) - 2 * kApart;
  const double scale = std::min(kMost, most / std::max(step.width.inches(), step.height.inches()));
  const Vec corner = draw::inches(step.corner);
  const Vec whole = middle_of(pattern, step.patches);
  draw::Display display;
  display.width = scale * step.width.inches() + 2 * kApart;
  display.height = scale * step.height.inches() + 2 * kApart;
  Lettering lettering;
  std::vector<std::pair<int, draw::Outline>> slots;
  for (const Unit unit : step.join) {
    const std::vector<int> held = patches_of(piecing, unit);
    const Vec away = (kApart * 0.7) * unit_vector(middle_of(pattern, held) - whole);
    for (const int patch : held) {
      const draw::Outline outline = moved(pattern.patches[patch].polygon, corner, scale, Vec{kApart, kApart} + away);
      add_hatched(display, outline, pattern.patches[patch].slot);
      display.add(draw::Line{outline, 0.8, draw::kInk, true});
      slots.emplace_back(pattern.patches[patch].slot, outline);
    }
  }
  for (const cloth::Seam& seam : step.seams) {
    const Vec at = scale * (0.5 * (draw::inches(seam.from) + draw::inches(seam.to)) - corner) + Vec{kApart, kApart};
    const double length = std::clamp(0.5 * scale * seam.length.inches(), 9.0, kArrow + 4);
    add_press(display, step.press.kind, at, press_way(pattern, step, seam), length);
    lettering.block({at.x - 7, at.y - 7, 14, 14});
  }
  for (const auto& [slot, outline] : slots) {
    add_slot(display, lettering, pattern.slots[slot].name, slot_code(pattern, slot), outline);
  }
  return display;
}

draw::Display pressing_drawing(const Pattern& pattern, const cloth::Piecing& piecing, bool other, double side) {
  const double scale = side / std::max(pattern.width.inches(), pattern.height.inches());
  draw::Display display;
  display.width = scale * pattern.width.inches();
  display.height = scale * pattern.height.inches();
  for (const block::Patch& patch : pattern.patches) {
    const draw::Outline outline = moved(patch.polygon, {}, scale, {});
    add_hatched(display, outline, patch.slot);
    display.add(draw::Line{outline, 0.6, draw::kInk, true});
  }
  for (const cloth::Step& step : piecing.steps) {
    for (const cloth::Seam& seam : step.seams) {
      const Vec at = scale * (0.5 * (draw::inches(seam.from) + draw::inches(seam.to)));
      const double length = std::clamp(0.6 * scale * seam.length.inches(), 8.0, kArrow);
      add_press(display, step.press.kind, at, (other ? -1.0 : 1.0) * press_way(pattern, step, seam), length);
    }
  }
  display.add(draw::Line{draw::outline_of({0, 0, display.width, display.height}), 1.2, draw::kInk, true});
  return display;
}

}  // namespace farflung::sheet
