// The best layout that so much work can reach, by trying everything.
#pragma once

#include <functional>
#include <set>
#include <utility>
#include <vector>

#include "score/measure.hpp"

namespace farflung::swap {

/// Takes a layout, and the half swaps that one step to it is.
using TakeNext = std::function<void(const setting::Arrangement&, int)>;
/// Gives every layout that one step of at most so many half swaps reaches.
using EveryNext = std::function<void(const setting::Arrangement&, int, const TakeNext&)>;

/// Tells layouts apart.
inline std::pair<std::vector<int>, std::vector<int>> key(const setting::Arrangement& layout) {
  std::vector<int> turns;
  for (const Turn turn : layout.turn) turns.push_back(turn.quarters());
  return {layout.block, turns};
}

inline score::Score best_by_trying(const score::Measure& measure, int half_swaps_at_most, const EveryNext& every_next) {
  const setting::Arrangement& wall = measure.quilt().layout;
  std::set<std::pair<std::vector<int>, std::vector<int>>> seen;
  std::vector<std::vector<setting::Arrangement>> by_work(half_swaps_at_most + 1);
  by_work[0] = {wall};
  score::Score best = measure.score(wall);
  for (int work = 0; work <= half_swaps_at_most; ++work) {
    for (const setting::Arrangement& layout : by_work[work]) {
      if (!seen.insert(key(layout)).second) continue;
      const score::Score score = measure.score(layout);
      if (better(score, best)) best = score;
      const int left = half_swaps_at_most - work;
      every_next(layout, left, [&](const setting::Arrangement& next, int more) {
        if (more <= left) by_work[work + more].push_back(next);
      });
    }
  }
  return best;
}

}  // namespace farflung::swap
