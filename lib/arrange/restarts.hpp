// Searching again and again from the best so far: for those who wait, and for grids whose optimum is known.
#pragma once

#include <functional>
#include <vector>

#include "arrange/chain.hpp"
#include "arrange/symmetry.hpp"

namespace farflung::arrange {

/// Everything may move: every block lies in a place and takes the one form there is.
Freedom free_to_move(const score::Model& model);

/// Where restarts begin and what they may use.
struct Beginning {
  std::vector<std::vector<Held>> starts;
  std::vector<Symmetry> symmetries;  ///< the identity at least where not empty; empty: it alone
};

/// First goes down from the best of the starts given. Then bettering starts drawn by lot by turns with crossings of the
/// best so far: by annealing, or where one print lies among blanks by tabu search, there from starts that repeat
/// themselves too. The first run is short and the runs grow, so that easy grids are done at once; where crossings bring
/// nothing new for long, the best are found anew. Tells each result, until `found` or `go_on` says false.
void restarts(const Task& task, const Beginning& beginning, Seed seed, const std::function<bool(const Found&)>& found,
              const std::function<bool()>& go_on);

}  // namespace farflung::arrange
