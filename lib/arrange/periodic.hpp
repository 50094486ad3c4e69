// Starts of one print that repeat themselves over the grid.
#pragma once

#include <functional>
#include <vector>

#include "arrange/chain.hpp"
#include "arrange/symmetry.hpp"

namespace farflung::arrange {

/// One print's copies laid so that a symmetry drawn by lot maps them upon themselves. Which of its orbits they fill is
/// found by tabu search, as if each were one place: many times fewer places than the grid has, and layouts that regular
/// lie where searching copy by copy does not lead. Copies that fill no whole orbit come, or are taken, by lot. As
/// `by_lot` where no symmetry has orbits that are alike. `task` is one print's.
std::vector<Held> periodic_start(const Task& task, const std::vector<Symmetry>& symmetries,
                                 const std::vector<Held>& by_lot, Rng& rng, const std::function<bool()>& go_on);

}  // namespace farflung::arrange
