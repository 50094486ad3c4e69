#include "cloth/precut.hpp"

#include <algorithm>

#include "cloth/extent.hpp"

namespace farflung::cloth {
namespace {

bool is_precut(const print::Cloth& cloth) {
  constexpr const char* kKinds[] = {"charm square", "10 in square", "2 1/2 in strip"};
  return std::find(std::begin(kKinds), std::end(kKinds), cloth.kind) != std::end(kKinds);
}

/// The one kind that all cloth in hand of a print is of; none where that is not sold cut to size.
const print::Cloth* precut_of(const print::Print& print) {
  if (print.cloth.empty() || !is_precut(print.cloth.front())) return nullptr;
  const print::Cloth& first = print.cloth.front();
  const bool alike = std::all_of(print.cloth.begin(), print.cloth.end(),
                                 [&](const print::Cloth& cloth) { return cloth.kind == first.kind; });
  return alike ? &first : nullptr;
}

}  // namespace

std::vector<std::string> precuts_said(const quilt::Quilt& quilt, const CutList& list) {
  std::vector<std::string> says;
  for (const CutLine& line : list.lines) {
    const bool straight = line.shape.shape == Shape::square || line.shape.shape == Shape::rectangle;
    if (line.print == kNone || !straight) continue;
    const print::Cloth* cloth = precut_of(quilt.prints[line.print]);
    if (cloth == nullptr) continue;
    const Length side = std::min(cloth->width, cloth->length);
    const Length gives = side - 2 * quilt.seam_allowance;
    const Length finished = std::min(line.shape.finished_width, line.shape.finished_height);
    if (finished <= gives + kSnap || finished > side + kSnap) continue;
    std::string text = "A " + cloth->kind + " is cut " + said(side, list.ruler) +
                       " wide, seam allowances and all: what it gives finishes at " + said(gives, list.ruler) +
                       ", not at " + said(finished, list.ruler) + ".";
    if (std::find(says.begin(), says.end(), text) == says.end()) says.push_back(std::move(text));
  }
  return says;
}

}  // namespace farflung::cloth
