// Each of many things one of two ways, so that what they cost together is least.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

namespace farflung::score {

/// What the ways of things cost: each by itself, and each two that are linked by whether they go the same way.
struct TwoWays {
  struct Link {
    int a = 0, b = 0;
    /// What it costs where both go the same way, and where they do not.
    std::int64_t same = 0, apart = 0;
  };

  std::vector<std::array<std::int64_t, 2>> own;  ///< by thing, of the first way and of the other
  std::vector<Link> links;                       ///< between different things; two may be linked more than once
};

/// By thing, whether it goes the other way.
struct WaysChosen {
  std::vector<bool> other;
  bool exact = true;  ///< no choice costs less, proved
};

/// Things that are linked, directly or not, are decided together: exactly, by dynamic programming over the frontier of
/// what is decided, where an order is found whose frontier stays within kWidestFrontier - a grid of blocks that has so
/// many in its rows or in its columns. Wider ones are bettered window by window, each exactly, until none betters.
/// Where both ways cost the same, the first.
WaysChosen cheapest_ways(const TwoWays& problem);

/// The cost of a choice: what the chosen ways cost by themselves, and each link by whether its two go the same way.
std::int64_t cost_of(const TwoWays& problem, const std::vector<bool>& other);

/// Things decided that are still linked to others that are not: 2^16 states are looked at for each thing.
inline constexpr int kWidestFrontier = 16;

}  // namespace farflung::score
