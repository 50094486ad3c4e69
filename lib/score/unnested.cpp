// Seam ends of a layout that do not nest, as the score counts them.
#include <optional>

#include "score/measure.hpp"
#include "score/press_choice.hpp"

namespace farflung::score {
namespace {

/// Two blocks that share an edge on which seam ends meet.
struct Join {
  int a = 0, b = 0;
  EndCount ends;
};

std::vector<Join> joins_of(const Measure& measure, const setting::Arrangement& arrangement) {
  std::vector<Join> joins;
  for (const setting::CellPair& pair : measure.meetings().contacts().pairs()) {
    const int a = arrangement.block[pair.first];
    const int b = arrangement.block[pair.second];
    if (a == kNone || b == kNone) continue;
    const auto& blocks = measure.quilt().blocks;
    const EndCount& ends = measure.ends().between(pair.relation, blocks[a].pattern, arrangement.turn[pair.first],
                                                  blocks[b].pattern, arrangement.turn[pair.second]);
    if (ends.asked() > 0) joins.push_back({a, b, ends});
  }
  return joins;
}

}  // namespace

std::vector<bool> Measure::pressed_other(const setting::Arrangement& arrangement) const {
  std::vector<std::optional<bool>> pressed;
  bool all = true;
  for (const block::Block& block : quilt_.blocks) {
    pressed.push_back(block.press ? std::optional<bool>(*block.press == block::Block::Press::other) : std::nullopt);
    all = all && pressed.back().has_value();
  }
  if (all) {
    std::vector<bool> other;
    other.reserve(pressed.size());
    for (const auto& press : pressed) other.push_back(*press);
    return other;
  }
  std::vector<PressWish> wishes;
  for (const Join& join : joins_of(*this, arrangement)) {
    wishes.insert(wishes.end(), static_cast<std::size_t>(join.ends.alike), {join.a, join.b, false});
    wishes.insert(wishes.end(), static_cast<std::size_t>(join.ends.unlike), {join.a, join.b, true});
  }
  return press_unpressed(wishes, pressed);
}

int Measure::unnested(const setting::Arrangement& arrangement) const {
  const std::vector<bool> other = pressed_other(arrangement);
  int sum = 0;
  for (const Join& join : joins_of(*this, arrangement)) sum += join.ends.unnested(other[join.a] == other[join.b]);
  return sum;
}

}  // namespace farflung::score
