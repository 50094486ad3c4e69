// Exhaustive search on small tops: what no search may beat.
#pragma once

#include <algorithm>
#include <vector>

#include "score/measure.hpp"

namespace farflung::support {

/// The least score, by `better`, of all layouts that look different, the prints' copies as they are. For blocks of one
/// pattern that do not turn, one for each cell.
template <class Better>
score::Score best_of_all_layouts(const score::Measure& measure, const Better& better) {
  const quilt::Quilt& quilt = measure.quilt();
  const auto by_prints = [&](int a, int b) { return quilt.blocks[a].prints < quilt.blocks[b].prints; };
  setting::Arrangement layout = quilt.layout;
  std::sort(layout.block.begin(), layout.block.end(), by_prints);
  score::Score best = measure.score(layout);
  while (std::next_permutation(layout.block.begin(), layout.block.end(), by_prints)) {
    const score::Score score = measure.score(layout);
    if (better(score, best)) best = score;
  }
  return best;
}

inline score::Score best_of_all_layouts(const score::Measure& measure) {
  return best_of_all_layouts(measure, [](const score::Score& a, const score::Score& b) { return score::better(a, b); });
}

}  // namespace farflung::support
