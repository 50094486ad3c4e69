#include "makeup/balance.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "print/distance.hpp"

namespace farflung::makeup {

Balance::Balance(const quilt::Quilt& quilt, Prints prints)
    : all_(static_cast<int>(quilt.prints.size())),
      prints_(std::move(prints)),
      met_(quilt.prints.size() * quilt.prints.size(), 0) {
  for (const block::Block& block : quilt.blocks) pattern_.push_back(block.pattern);
  for (const block::Pattern& pattern : quilt.patterns) {
    dealt_.emplace_back();
    for (int slot = 0; slot < static_cast<int>(pattern.slots.size()); ++slot) {
      if (pattern.slots[slot].print == kNone) dealt_.back().push_back(slot);
    }
    seams_.emplace_back();
    const double side = std::sqrt(pattern.width.inches() * pattern.height.inches());
    for (const block::InnerSeam& seam : block::inner_seams(pattern)) {
      const int a = pattern.patches[seam.patch_a].slot;
      const int b = pattern.patches[seam.patch_b].slot;
      if (a != b) seams_.back().push_back({a, b, seam.length.inches() / side});
    }
  }
  for (const print::Print& p : quilt.prints) {
    for (const print::Print& q : quilt.prints) {
      const double apart = quilt.goals.likeness_by_print ? print::distance(p.features, q.features)
                                                         : colour::delta_e_2000(p.features.lab, q.features.lab);
      const double left = std::max(0.0, 1 - apart / 10);
      likeness_.push_back(left * left);
    }
  }
  for (int b = 0; b < static_cast<int>(prints_.size()); ++b) {
    const std::vector<int> of_block = prints_[b];
    for (const int slot : dealt_[pattern_[b]]) prints_[b][slot] = kNone;
    for (const int slot : dealt_[pattern_[b]]) put(b, slot, of_block[slot], 1);
  }
}

/// What the seams around a slot count, its own print as it is.
double Balance::seams_alike(int block, int slot) const {
  double sum = 0;
  for (const InnerSeam& seam : seams_[pattern_[block]]) {
    if (seam.slot_a != slot && seam.slot_b != slot) continue;
    const int p = prints_[block][seam.slot_a];
    const int q = prints_[block][seam.slot_b];
    if (p != kNone && q != kNone) sum += seam.length * likeness_[static_cast<std::size_t>(p) * all_ + q];
  }
  return sum;
}

/// Fills an empty slot (sign 1) or empties it (sign -1).
void Balance::put(int block, int slot, int print, int sign) {
  if (print == kNone) return;
  if (sign < 0) mix_.alike -= seams_alike(block, slot);
  prints_[block][slot] = sign > 0 ? print : kNone;
  if (sign > 0) mix_.alike += seams_alike(block, slot);
  for (const int other : dealt_[pattern_[block]]) {
    const int beside = prints_[block][other];
    if (other == slot || beside == kNone) continue;
    if (beside == print) {
      mix_.clashes += sign;
      continue;
    }
    int& met = met_[static_cast<std::size_t>(std::min(print, beside)) * all_ + std::max(print, beside)];
    mix_.meetings += sign > 0 ? 2 * met + 1 : 1 - 2 * met;
    met += sign;
  }
}

void Balance::apply(int block_a, int slot_a, int block_b, int slot_b) {
  const int in_a = prints_[block_a][slot_a];
  const int in_b = prints_[block_b][slot_b];
  put(block_a, slot_a, in_a, -1);
  put(block_b, slot_b, in_b, -1);
  put(block_a, slot_a, in_b, 1);
  put(block_b, slot_b, in_a, 1);
}

Mix Balance::delta(int block_a, int slot_a, int block_b, int slot_b) {
  const Mix before = mix_;
  apply(block_a, slot_a, block_b, slot_b);
  const Mix change = mix_ - before;
  apply(block_a, slot_a, block_b, slot_b);
  mix_ = before;
  return change;
}

bool Balance::keeps_apart(int block_a, int block_b, int slot) const {
  const int in_a = prints_[block_a][slot];
  const int in_b = prints_[block_b][slot];
  for (const int other : dealt_[pattern_[block_a]]) {
    if (other != slot && (prints_[block_a][other] == in_b || prints_[block_b][other] == in_a)) return false;
  }
  return true;
}

}  // namespace farflung::makeup
