// How a plan's cuts are told: in steps, and from the side on which the cutter's ruler lies.
#include "cloth/plan.hpp"

namespace farflung::cloth {
namespace {

/// From the edge where the ruler is laid to the line.
Length from_edge(const NumberedCut& cut, bool from_right) {
  if (!cut.upright) return cut.at - cut.of.y;
  return from_right ? cut.of.x + cut.of.width - cut.at : cut.at - cut.of.x;
}

/// Whether `next` goes on where `cut` left off: the same direction and width, from what lies beyond the line.
bool goes_on(const NumberedCut& cut, const NumberedCut& next, bool from_right) {
  if (cut.upright != next.upright || from_edge(cut, from_right) != from_edge(next, from_right)) return false;
  const Length off = from_edge(cut, from_right);
  if (!cut.upright) {
    return next.of.x == cut.of.x && next.of.width == cut.of.width && next.of.y == cut.at &&
           next.of.height == cut.of.height - off;
  }
  return next.of.y == cut.of.y && next.of.height == cut.of.height && next.of.width == cut.of.width - off &&
         (from_right ? next.of.x == cut.of.x : next.of.x == cut.at);
}

bool alike(const CutStep& a, const CutStep& b) {
  return a.upright == b.upright && a.width == b.width && a.height == b.height && a.every == b.every &&
         a.times == b.times;
}

std::string says_of(const CutStep& step, const SheetPlan& sheet, Ruler ruler, bool from_right) {
  const char* edge = !step.upright ? "the top edge" : from_right ? "the right edge" : "the left edge";
  std::string says = step.upright ? "up and down, " : "across, ";
  says += (step.times == 1 ? "" : "every ") + said(step.every, ruler);
  says += step.times == 1 ? std::string(" from ") + edge : ", " + std::to_string(step.times) + " times, from " + edge;
  const bool whole = step.width == sheet.width && step.height == sheet.length;
  if (whole) return says;
  return says + " of " + (step.pieces == 1 ? "the " : "each of " + std::to_string(step.pieces) + " pieces ") +
         said(step.width, step.height, ruler);
}

}  // namespace

SheetPlan left_handed(const SheetPlan& sheet) {
  SheetPlan result = sheet;
  const auto mirror = [&](Area& area) { area.x = sheet.width - area.x - area.width; };
  for (PlacedPiece& piece : result.pieces) mirror(piece.area);
  for (Area& area : result.left) mirror(area);
  for (NumberedCut& cut : result.cuts) {
    mirror(cut.of);
    if (!cut.upright) continue;
    cut.at = sheet.width - cut.at;
    const auto place = cut.says.find("left edge");
    if (place != std::string::npos) cut.says.replace(place, 4, "right");
  }
  return result;
}

std::vector<CutStep> cut_steps(const SheetPlan& sheet, Ruler ruler, bool from_right) {
  std::vector<CutStep> steps;
  for (std::size_t i = 0; i < sheet.cuts.size();) {
    const NumberedCut& cut = sheet.cuts[i];
    CutStep step{cut.number, cut.number, cut.upright, cut.of.width, cut.of.height, from_edge(cut, from_right),
                 1,          1,          ""};
    for (++i; i < sheet.cuts.size() && goes_on(sheet.cuts[i - 1], sheet.cuts[i], from_right); ++i) {
      ++step.times;
      step.last = sheet.cuts[i].number;
    }
    if (!steps.empty() && alike(steps.back(), step)) {
      steps.back().last = step.last;
      ++steps.back().pieces;
    } else {
      steps.push_back(step);
    }
  }
  for (CutStep& step : steps) step.says = says_of(step, sheet, ruler, from_right);
  return steps;
}

}  // namespace farflung::cloth
