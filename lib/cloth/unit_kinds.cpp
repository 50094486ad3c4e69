#include <algorithm>
#include <cmath>
#include <map>

#include "cloth/piecing.hpp"

namespace farflung::cloth {
namespace {

using block::Pattern;
using block::Pressing;
using block::Unit;

/// Thousandths of an inch: points nearer than that are one point.
std::string place(Length length) { return std::to_string(std::lround(length.inches() * 1000)) + ","; }

/// What a step makes, the same for every way it may be turned: each patch by slot, place, side of the seam pressed
/// toward, and the kind of the unit that it comes in.
std::string likeness(const Pattern& pattern, const Piecing& piecing, int index, const std::vector<int>& kind_of) {
  const Step& step = piecing.steps[index];
  std::string least;
  for (int quarters = 0; quarters < 4; ++quarters) {
    std::vector<std::string> patches;
    for (const Unit unit : step.join) {
      const bool single = unit.kind == Unit::Kind::patch;
      const bool toward = step.press.kind == Pressing::Kind::toward && step.press.toward == unit;
      const std::string from = single ? std::string("p") : std::to_string(kind_of[unit.index]);
      const std::vector<int> held = single ? std::vector<int>{unit.index} : piecing.steps[unit.index].patches;
      for (const int patch : held) {
        Polygon polygon = pattern.patches[patch].polygon;
        for (Point& p : polygon) p = p - step.corner;
        polygon = turned(polygon, step.width, step.height, Turn::quarters(quarters));
        std::vector<std::string> corners;
        for (const Point& p : polygon) corners.push_back(place(p.x) + place(p.y));
        std::sort(corners.begin(), corners.end());
        std::string says = std::to_string(pattern.patches[patch].slot) + (toward ? "t" : "f") + from + ":";
        for (const std::string& corner : corners) says += corner + ";";
        patches.push_back(std::move(says));
      }
    }
    std::sort(patches.begin(), patches.end());
    std::string all = std::to_string(static_cast<int>(step.press.kind));
    for (const std::string& patch : patches) all += "|" + patch;
    if (quarters == 0 || all < least) least = std::move(all);
  }
  return least;
}

std::string name_of(const Pattern& pattern, Unit unit, const std::vector<int>& kind_of) {
  if (unit.kind == Unit::Kind::step) return "unit " + std::to_string(kind_of[unit.index] + 1);
  return pattern.slots[pattern.patches[unit.index].slot].name;
}

std::string says_of(const Pattern& pattern, const Step& step, const std::vector<int>& kind_of) {
  std::string says = "Sew ";
  for (std::size_t i = 0; i < step.join.size(); ++i) {
    says += (i == 0 ? "" : " to ") + name_of(pattern, step.join[i], kind_of);
  }
  switch (step.press.kind) {
    case Pressing::Kind::open:
      return says + "; press open.";
    case Pressing::Kind::spun:
      return says + "; spin the seam.";
    case Pressing::Kind::toward:
      break;
  }
  const std::string toward = name_of(pattern, step.press.toward, kind_of);
  int alike = 0;
  for (const Unit unit : step.join) alike += name_of(pattern, unit, kind_of) == toward ? 1 : 0;
  return says + (alike > 1 ? "; press as the arrow shows." : "; press toward " + toward + ".");
}

}  // namespace

std::vector<UnitKind> unit_kinds(const Pattern& pattern, const Piecing& piecing) {
  std::vector<UnitKind> kinds;
  std::map<std::string, int> known;
  std::vector<int> kind_of(piecing.steps.size(), 0);
  for (std::size_t s = 0; s < piecing.steps.size(); ++s) {
    const int index = static_cast<int>(s);
    const auto [at, is_new] =
        known.try_emplace(likeness(pattern, piecing, index, kind_of), static_cast<int>(kinds.size()));
    kind_of[s] = at->second;
    if (is_new) kinds.push_back({{}, says_of(pattern, piecing.steps[s], kind_of)});
    kinds[at->second].steps.push_back(index);
  }
  return kinds;
}

}  // namespace farflung::cloth
