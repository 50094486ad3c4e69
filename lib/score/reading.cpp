#include "score/reading.hpp"

namespace farflung::score {

Reading reading_of(const print::Print& print) {
  const colour::Lab& lab = print.features.lab;
  return {1.5 * lab.L, lab.a, lab.b, 20 * print.features.busyness};
}

SlotFacts slot_facts(const block::Pattern& pattern) {
  SlotFacts facts{block::slot_shares(pattern), {}};
  for (const block::Slot& slot : pattern.slots) facts.may_touch.push_back(slot.may_touch);
  return facts;
}

std::vector<int> prints_of(const quilt::Quilt& quilt, const block::Block& block) {
  std::vector<int> prints;
  const int slots = static_cast<int>(quilt.patterns[block.pattern].slots.size());
  prints.reserve(static_cast<std::size_t>(slots));
  for (int slot = 0; slot < slots; ++slot) prints.push_back(quilt::print_of_slot(quilt, block, slot));
  return prints;
}

std::vector<Share> shares_of(const SlotFacts& facts, const std::vector<int>& prints) {
  std::vector<Share> shares;
  for (std::size_t slot = 0; slot < prints.size(); ++slot) {
    if (facts.may_touch[slot] || prints[slot] == kNone || facts.area[slot] <= 0) continue;
    bool known = false;
    for (Share& share : shares) {
      if (share.print != prints[slot]) continue;
      share.share += facts.area[slot];
      known = true;
    }
    if (!known) shares.push_back({prints[slot], facts.area[slot]});
  }
  return shares;
}

Reading mean_reading(const SlotFacts& facts, const std::vector<int>& prints, const std::vector<Reading>& readings) {
  Reading sum{};
  double area = 0;
  for (std::size_t slot = 0; slot < prints.size(); ++slot) {
    if (prints[slot] == kNone) continue;
    for (std::size_t k = 0; k < sum.size(); ++k) sum[k] += facts.area[slot] * readings[prints[slot]][k];
    area += facts.area[slot];
  }
  if (area > 0) {
    for (double& value : sum) value /= area;
  }
  return sum;
}

}  // namespace farflung::score
