// Layouts at several temperatures at once, which change places with each other: Swendsen and Wang 1986,
// doi:10.1103/PhysRevLett.57.2607; Hukushima and Nemoto 1996, doi:10.1143/JPSJ.65.1604.
#pragma once

#include <vector>

#include "arrange/chain.hpp"

namespace farflung::arrange {

/// Anneals a layout from each of `starts`. Each first cools to a temperature of its own, about that where layouts
/// freeze; then layouts at neighbouring temperatures change them now and then, so that what is stuck in the cold is
/// warmed and comes back another way; at last each cools to the end. What is found of a layout is the best that it
/// came down to on the way.
///
/// Where a run has some hundred thousand proposals a place it finds better layouts than as many runs that only cool;
/// where it has fewer the layouts do not come round.
///
/// `work` is that of each layout, `watches` one for each, called from so many threads (0: one for each core): the
/// outcome does not depend on how many. Once a watch says false what is found is of no use.
std::vector<Found> temper(const Task& task, const std::vector<std::vector<Held>>& starts, const Heat& heat,
                          const Work& work, Seed seed, int threads, const std::vector<Watch>& watches);

}  // namespace farflung::arrange
