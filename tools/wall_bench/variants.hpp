// Walls that are hard to read in one way each.
#pragma once

#include <vector>

#include "wall_bench/trial.hpp"

namespace farflung::wall_bench {

struct Variant {
  const char* name;
  void (*make)(simulator::Hanging& hanging, simulator::Shot& shot);
};

/// The first is a tidy wall in even light by a telephone; each of the others differs from it in one way.
const std::vector<Variant>& variants();

/// A wall of that kind.
Wall wall_so(const Variant& variant, const Wanted& wanted, Seed seed);

}  // namespace farflung::wall_bench
