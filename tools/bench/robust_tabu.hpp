// A rival: robust tabu search for the quadratic assignment problem, from its published description.
#pragma once

#include <vector>

#include "base/rng.hpp"
#include "published_tables.hpp"

namespace farflung::bench {

/// What a search found and when.
struct Reached {
  long value = 0;
  double seconds = 0;  ///< processor time until the value was found
};

/// E. Taillard, Parallel Computing 17 (1991) 443-455, doi:10.1016/S0167-8191(05)80147-4: all exchanges priced at every
/// step, the prices updated in constant time; an exchange that puts two items back where they were is tabu for a time
/// drawn between 0.9 n and 1.1 n; aspiration by a new best and by exchanges not made for 2.2 n^2 steps.
Reached robust_tabu(const Torus& torus, const std::vector<long>& weights, double seconds, long target, Seed seed);

}  // namespace farflung::bench
