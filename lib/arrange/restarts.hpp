// Annealing again and again, each run longer than the last: for those who wait, and for grids whose optimum is known.
#pragma once

#include <functional>

#include "arrange/chain.hpp"

namespace farflung::arrange {

/// Everything may move: every block lies in a place and takes the one form there is.
Freedom free_to_move(const score::Model& model);

/// Anneals from starts drawn by lot, and every other time from the best so far, reheated; tells each result, until
/// `found` or `go_on` says false. The first run is short and the runs grow, so that easy grids are done at once.
void restarts(const Task& task, Seed seed, const std::function<bool(const Found&)>& found,
              const std::function<bool()>& go_on);

/// How far apart, in steps (rows + columns), the closest two copies of any print lie where `prints` prints fill a
/// bounded grid as far apart as a lattice puts them: print (a row + b column) modulo prints, the best a and b.
int closest_in_steps(int rows, int columns, int prints);

/// That lattice: the print of each cell, row by row.
std::vector<int> far_apart(int rows, int columns, int prints);

}  // namespace farflung::arrange
