// What has to be done between two layouts on sites, and the steps that do it.
#pragma once

#include <span>

#include "swap/step.hpp"
#include "swap/walk.hpp"

namespace farflung::swap {

/// The exchanges that bring one layout to the other.
struct Errands {
  std::vector<Trip> trips;  ///< the fewest, in an order that arrives; those that share no site may change places
  /// No list of trips is shorter.
  bool proven = false;
};

/// Both layouts fill the same sites with units of the same kinds; `kinds` by unit.
Errands errands_between(const setting::Arrangement& wall, const setting::Arrangement& to, const std::vector<int>& kinds,
                        const Distances& distance);

/// The swaps it takes where every unit is one of its own: sites out of place less cycles. Units that only one of the
/// two layouts names count as out of place without a cycle.
int plain_swaps(const setting::Arrangement& wall, const setting::Arrangement& to);

/// One trip as a step from `layout`. A site that no later trip touches gets the turn that `to` has there; else its
/// unit travels as it was.
Step step_of(const Trip& trip, std::span<const Trip> later, const setting::Arrangement& layout,
             const setting::Arrangement& to);

/// Trips as steps: a unit is turned as `to` has it when its site is touched for the last time, and travels as it was
/// until then.
std::vector<Step> steps_along(const std::vector<Trip>& trips, setting::Arrangement wall,
                              const setting::Arrangement& to);

}  // namespace farflung::swap
