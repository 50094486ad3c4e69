#include "choice/supplies.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "choice/role.hpp"
#include "choice/words.hpp"

namespace farflung::choice {
namespace {

using Part = Supply::Part;

constexpr std::array kPartNames = {
    "light",         "medium",       "dark",          "background",   "accent", "sashing print", "cornerstone print",
    "setting print", "border print", "binding print", "backing print"};

std::string number_word(std::size_t number) {
  constexpr std::array kWords = {"no",    "one",   "two",  "three", "four",   "five",  "six",
                                 "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  return number < kWords.size() ? kWords[number] : std::to_string(number);
}

double boxed_area(const Polygon& polygon, Length allowance) {
  Point low = polygon[0], high = polygon[0];
  for (const Point& point : polygon) {
    low = {std::min(low.x, point.x), std::min(low.y, point.y)};
    high = {std::max(high.x, point.x), std::max(high.y, point.y)};
  }
  return (high.x - low.x + 2 * allowance).inches() * (high.y - low.y + 2 * allowance).inches();
}

/// Square inches as a whole number of them, or of square centimetres, never too few.
std::string area_words(double area, quilt::Units units) {
  constexpr double kSquareCentimetres = 2.54 * 2.54;
  const bool inches = units == quilt::Units::inches;
  return rounded(std::ceil((inches ? area : area * kSquareCentimetres) - 1e-6), 0) + (inches ? " sq in" : " sq cm");
}

// What each part needs of each print; kNone where it has no print yet.
class Tally {
 public:
  void add(Part part, int print, double area) {
    Need& need = needs_[part][print];
    ++need.pieces;
    need.area += area;
  }

  SupplyList list(quilt::Units units) const {
    SupplyList list;
    std::vector<std::string> words;
    for (const auto& [part, by_print] : needs_) {
      Supply supply;
      supply.part = part;
      for (const auto& [print, need] : by_print) {
        if (print != kNone) supply.prints.push_back(print);
        supply.pieces += need.pieces;
        supply.cut_area += need.area;
        supply.largest_share = std::max(supply.largest_share, need.area);
      }
      const std::size_t count = std::max<std::size_t>(1, supply.prints.size());
      const std::string name = number_word(count) + " " + part_name(part) + (count == 1 ? "" : "s");
      supply.says = name + ", " + (count == 1 ? "" : "at most ") + area_words(supply.largest_share, units) +
                    (count == 1 ? "" : " of each");
      words.push_back(name);
      list.lines.push_back(std::move(supply));
    }
    for (std::size_t i = 0; i < words.size(); ++i) list.says += (i == 0 ? "" : ", ") + words[i];
    return list;
  }

 private:
  struct Need {
    int pieces = 0;
    double area = 0;
  };
  std::map<Part, std::map<int, Need>> needs_;
};

bool plays(const block::Pattern& pattern, int slot, Role::Kind kind) {
  const std::vector<int> slots = slots_of(pattern, kind);
  return std::find(slots.begin(), slots.end(), slot) != slots.end();
}

/// Light, medium or dark beside the other prints that are dealt to blocks; by index of print.
std::map<int, Part> dealt_classes(const quilt::Quilt& quilt) {
  std::vector<int> dealt;
  for (const block::Block& block : quilt.blocks) {
    const block::Pattern& pattern = quilt.patterns[block.pattern];
    for (int slot = 0; slot < static_cast<int>(pattern.slots.size()); ++slot) {
      const int print = quilt::print_of_slot(quilt, block, slot);
      const bool other = plays(pattern, slot, Role::Kind::background) || plays(pattern, slot, Role::Kind::accent);
      if (print != kNone && !other) dealt.push_back(print);
    }
  }
  std::sort(dealt.begin(), dealt.end());
  dealt.erase(std::unique(dealt.begin(), dealt.end()), dealt.end());
  std::vector<print::Print> prints;
  prints.reserve(dealt.size());
  for (int i : dealt) prints.push_back(quilt.prints[i]);
  const std::vector<print::ValueClass> classes = print::value_classes(prints);
  std::map<int, Part> parts;
  for (std::size_t i = 0; i < dealt.size(); ++i) {
    parts[dealt[i]] = classes[i] == print::ValueClass::light    ? Part::lights
                      : classes[i] == print::ValueClass::medium ? Part::mediums
                                                                : Part::darks;
  }
  return parts;
}

void tally_blocks(const quilt::Quilt& quilt, Tally& tally) {
  const std::map<int, Part> classes = dealt_classes(quilt);
  for (const block::Block& block : quilt.blocks) {
    const block::Pattern& pattern = quilt.patterns[block.pattern];
    for (const block::Patch& patch : pattern.patches) {
      const int print = quilt::print_of_slot(quilt, block, patch.slot);
      const double area = boxed_area(patch.polygon, quilt.seam_allowance);
      if (plays(pattern, patch.slot, Role::Kind::background)) {
        tally.add(Part::background, print, area);
      } else if (plays(pattern, patch.slot, Role::Kind::accent)) {
        tally.add(Part::accent, print, area);
      } else if (print != kNone) {
        tally.add(classes.at(print), print, area);
      }
    }
  }
}

void tally_frame(const quilt::Quilt& quilt, const setting::Plan& plan, Tally& tally) {
  for (const setting::FramePatch& patch : plan.frame) {
    const double area = boxed_area(patch.polygon, quilt.seam_allowance);
    switch (patch.role) {
      case setting::FramePatch::Role::sashing:
        tally.add(Part::sashing, patch.print, area);
        break;
      case setting::FramePatch::Role::cornerstone:
      case setting::FramePatch::Role::border_corner:
        tally.add(Part::cornerstones, patch.print, area);
        break;
      case setting::FramePatch::Role::filler:
        tally.add(Part::setting, patch.print, area);
        break;
      case setting::FramePatch::Role::border:
        tally.add(Part::border, patch.print, area);
        break;
    }
  }
}

}  // namespace

const char* part_name(Part part) { return kPartNames[static_cast<std::size_t>(part)]; }

SupplyList supplies_of(const quilt::Quilt& quilt) {
  constexpr double kBindingExtra = 10;  // inches: corners and the ending
  Tally tally;
  tally_blocks(quilt, tally);
  const setting::Plan plan = quilt::plan_of(quilt);
  tally_frame(quilt, plan, tally);
  if (quilt.binding) {
    const double round = 2 * (plan.width + plan.height).inches() + kBindingExtra;
    tally.add(Part::binding, quilt.binding->print, round * quilt.binding->width.inches());
  }
  if (quilt.backing) {
    const Length over = 2 * quilt.backing->over;
    tally.add(Part::backing, quilt.backing->print, (plan.width + over).inches() * (plan.height + over).inches());
  }
  return tally.list(quilt.units);
}

}  // namespace farflung::choice
