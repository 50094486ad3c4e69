// Annealing again and again, each run longer than the last: for those who wait, and for grids whose optimum is known.
#pragma once

#include <functional>
#include <vector>

#include "arrange/chain.hpp"

namespace farflung::arrange {

/// Everything may move: every block lies in a place and takes the one form there is.
Freedom free_to_move(const score::Model& model);

/// First goes down from the best of the starts given; then anneals from starts drawn by lot, and every other time from
/// the best so far, reheated. Tells each result, until `found` or `go_on` says false. The first run is short and the
/// runs grow, so that easy grids are done at once.
void restarts(const Task& task, const std::vector<std::vector<Held>>& starts, Seed seed,
              const std::function<bool(const Found&)>& found, const std::function<bool()>& go_on);

}  // namespace farflung::arrange
