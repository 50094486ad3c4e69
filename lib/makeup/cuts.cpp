#include "makeup/cuts.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <tuple>

namespace farflung::makeup {
namespace {

using quilt::kNone;

/// How a patch is cut that is a right triangle of two equal legs and lies along the block; none for any other.
std::optional<Cut> cut_of_patch(const Polygon& polygon, HalfSquares halves) {
  if (polygon.size() != 3) return std::nullopt;
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
    if (!legs_along && !long_side_along) return std::nullopt;
    return Cut{legs_along ? halves.from_square : 4, 1, std::round(leg_p * 1000) / 1000};
  }
  return std::nullopt;
}

}  // namespace

std::vector<Cut> cuts_of(const block::Pattern& pattern, int slot, HalfSquares halves) {
  std::vector<Cut> cuts;
  for (const block::Patch& patch : pattern.patches) {
    const std::optional<Cut> cut = patch.slot == slot ? cut_of_patch(patch.polygon, halves) : std::nullopt;
    if (!cut) continue;
    const auto known = std::find_if(cuts.begin(), cuts.end(), [&](const Cut& other) {
      return other.pieces == cut->pieces && other.side == cut->side;
    });
    if (known == cuts.end()) {
      cuts.push_back(*cut);
    } else {
      ++known->per_block;
    }
  }
  return cuts;
}

int blocks_of_whole_squares(const std::vector<Cut>& cuts) {
  int blocks = 1;
  for (const Cut& cut : cuts) blocks = std::lcm(blocks, cut.pieces / std::gcd(cut.pieces, cut.per_block));
  return blocks;
}

std::vector<LeftOver> left_over(const quilt::Quilt& quilt, HalfSquares halves) {
  std::map<std::tuple<int, double, int>, int> used;  // print, leg, pieces from a square
  for (const block::Block& block : quilt.blocks) {
    if (block.sewn) continue;
    const block::Pattern& pattern = quilt.patterns[block.pattern];
    for (int slot = 0; slot < static_cast<int>(pattern.slots.size()); ++slot) {
      const int print = quilt::print_of_slot(quilt, block, slot);
      if (print == kNone) continue;
      for (const Cut& cut : cuts_of(pattern, slot, halves)) used[{print, cut.side, cut.pieces}] += cut.per_block;
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
