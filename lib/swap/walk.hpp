// Rounds as single swaps, in an order that is short to walk.
#pragma once

#include <utility>
#include <vector>

#include "base/rng.hpp"
#include "setting/plan.hpp"
#include "swap/cycles.hpp"
#include "swap/sites.hpp"

namespace farflung::swap {

/// Two sites whose units change places; a == b: the unit there turns.
struct Trip {
  int a = 0, b = 0;
  friend bool operator==(const Trip&, const Trip&) = default;
};

/// Such trips must keep their order.
bool share_a_site(const Trip& s, const Trip& t);

/// The distance between the middles of sites, inches.
class Distances {
 public:
  Distances(const setting::Plan& plan, const Sites& sites);
  explicit Distances(const setting::Plan& plan);  ///< of cells
  double operator()(int a, int b) const;

 private:
  std::vector<double> x_, y_;
};

/// The swaps that settle a round of L cells, L - 1 of them: of all sets of swaps that do so the one with the shortest
/// ways between the cells that change places. Such sets are the spanning trees that do not cross themselves when the
/// round is drawn as a circle (Goulden and Yong 2002, doi:10.1006/jcta.2001.3225), so it is found exactly, in O(L^3).
std::vector<Trip> trips_of(const Round& round, const Distances& distance);

/// Puts the trips of a round in an order that settles it. Trips that share no cell may change places freely after.
std::vector<Trip> settling_order(const Round& round, std::vector<Trip> trips);

/// How far it is to walk: each trip from one of its cells to the other and back, then on to the next.
double walk(const std::vector<Trip>& trips, const Distances& distance);

/// The trips in another order, as short to walk as can be found; those that share a cell keep their order.
/// Deterministic by seed. For up to about 30 trips it is usually the shortest.
std::vector<Trip> shortest_walk(const std::vector<Trip>& trips, const Distances& distance, Seed seed);

}  // namespace farflung::swap
