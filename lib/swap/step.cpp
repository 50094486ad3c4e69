#include "swap/step.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace farflung::swap {

int half_swaps(const std::vector<Step>& steps) {
  int work = 0;
  for (const Step& step : steps) work += half_swaps(step);
  return work;
}

void make(const Step& step, setting::Arrangement& layout) {
  if (!step.whole.empty()) {
    const std::vector<int> before = layout.block;
    for (const Place& place : step.whole) {
      layout.block[place.cell] = before[place.from];
      layout.turn[place.cell] = place.turn;
    }
    return;
  }
  std::swap(layout.block[step.a], layout.block[step.b]);
  layout.turn[step.a] = step.turn_a;
  layout.turn[step.b] = step.turn_b;
}

std::vector<int> make_ups(const quilt::Quilt& quilt) {
  std::map<std::tuple<int, std::vector<int>, int, bool, int>, int> known;
  std::vector<int> kinds;
  for (const block::Block& block : quilt.blocks) {
    std::vector<int> prints;
    prints.reserve(quilt.patterns[block.pattern].slots.size());
    for (int slot = 0; slot < static_cast<int>(quilt.patterns[block.pattern].slots.size()); ++slot) {
      prints.push_back(quilt::print_of_slot(quilt, block, slot));
    }
    const int press = block.press ? 1 + static_cast<int>(*block.press) : 0;
    const auto key = std::make_tuple(block.pattern, std::move(prints), press, block.sewn, block.cut_turn.quarters());
    kinds.push_back(known.try_emplace(key, static_cast<int>(known.size())).first->second);
  }
  return kinds;
}

}  // namespace farflung::swap
