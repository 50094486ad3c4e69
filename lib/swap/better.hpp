// From the layout on the wall, the best that a few swaps can reach.
#pragma once

#include <string>
#include <vector>

#include "base/rng.hpp"
#include "score/measure.hpp"
#include "swap/step.hpp"

namespace farflung::swap {

/// A turn on the way in a swap is free; one alone is half a swap.
struct BetterOptions {
  int most = 10;  ///< swaps, at most
  Seed seed;
  double effort = 1;  ///< counts work, not seconds
  int threads = 2;    ///< the result is the same whatever their number
};

/// A step of a list, and where it leads.
struct Made {
  Step step;
  score::Score after;
  std::string says;  ///< "R2 C5 with R6 C1: parts two Kelps, takes the dark out of the top left corner"
};

/// A list of steps, the one that mends the most first.
struct List {
  std::vector<Made> steps;
  score::Score after;
  int half_swaps = 0;  ///< the work of its steps
};

/// The curve of score against swaps: where it flattens is where swapping stops paying.
struct BetterReport {
  score::Score before;
  std::vector<List> lists;  ///< lists[k - 1]: the best found with at most k swaps; never worse than lists[k - 2]
};

/// Better layouts than the wall's, with at most 1, 2, ... options.most swaps. At every k the list is at least as good
/// as taking the best single swap (turns on the way included) k times; the best single swap itself is found exactly.
/// Kept cells stay, and every step leaves a valid layout. `measure` must have been made of the quilt that lies so.
///
///   const score::Measure measure(quilt);
///   const BetterReport report = better_layouts(measure, {.most = 5});
BetterReport better_layouts(const score::Measure& measure, const BetterOptions& options);

/// The `count` best single steps, best first, exactly; a step counts as one whatever it is. Fewer where fewer mend
/// anything.
std::vector<Made> first_swaps(const score::Measure& measure, int count);

}  // namespace farflung::swap
