#include "makeup/cuts.hpp"

#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

namespace farflung::makeup {
namespace {

using quilt::kNone;

/// 2 or 4 and the leg, where a patch is a right triangle of two equal legs that lies along the block; else 1.
Cut cut_of_patch(const Polygon& polygon) {
  if (polygon.size() != 3) return {};
  for (int corner = 0; corner < 3; ++corner) {
    const Point at = polygon[corner];
    const Point p = polygon[(corner + 1) % 3] - at;
    const Point q = polygon[(corner + 2) % 3] - at;
    const double leg_p = std::hypot(p.x.inches(), p.y.inches());
    const double leg_q = std::hypot(q.x.inches(), q.y.inches());
    const double square = p.x.inches() * q.x.inches() + p.y.inches() * q.y.inches();
    if (std::abs(square) > 0.01 || std::abs(leg_p - leg_q) > 0.01) continue;
    const auto nought = [](Length length) { return std::abs(length.inches()) < 0.005; };
    const bool legs_along = nought(p.x) || nought(p.y);
    const bool long_side_along = nought(p.x - q.x) || nought(p.y - q.y);
    if (!legs_along && !long_side_along) return {};
    return {legs_along ? 2 : 4, 1, std::round(leg_p * 1000) / 1000};
  }
  return {};
}

}  // namespace

int Cut::blocks() const { return pieces / std::gcd(pieces, per_block); }

Cut cut_of(const block::Pattern& pattern, int slot) {
  Cut cut;
  int patches = 0;
  for (const block::Patch& patch : pattern.patches) {
    if (patch.slot != slot) continue;
    const Cut of_patch = cut_of_patch(patch.polygon);
    if (patches++ == 0) cut = of_patch;
    if (!(cut == of_patch)) cut = Cut{};
  }
  cut.per_block = std::max(1, patches);
  return cut;
}

std::vector<LeftOver> left_over(const quilt::Quilt& quilt) {
  std::map<std::tuple<int, double, int>, int> used;  // print, leg, pieces from a square
  for (const block::Block& block : quilt.blocks) {
    if (block.sewn) continue;
    const block::Pattern& pattern = quilt.patterns[block.pattern];
    for (int slot = 0; slot < static_cast<int>(pattern.slots.size()); ++slot) {
      const int print = quilt::print_of_slot(quilt, block, slot);
      const Cut cut = cut_of(pattern, slot);
      if (print != kNone && cut.pieces > 1) used[{print, cut.side, cut.pieces}] += cut.per_block;
    }
  }
  std::vector<LeftOver> left;
  for (const auto& [key, pieces] : used) {
    const auto [print, side, from_square] = key;
    const int spare = (from_square - pieces % from_square) % from_square;
    if (spare > 0) left.push_back({print, side, spare});
  }
  return left;
}

}  // namespace farflung::makeup
