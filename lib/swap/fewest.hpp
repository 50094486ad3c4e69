// From the layout on the wall to a given one in the fewest swaps.
#pragma once

#include "base/result.hpp"
#include "base/rng.hpp"
#include "swap/step.hpp"

namespace farflung::swap {

/// The way from the wall to the layout that was asked for.
struct FewestReport {
  std::vector<Step> steps;  ///< in an order that is short to walk
  int swaps = 0;
  int turns = 0;        ///< steps that only turn a block
  bool proven = false;  ///< nothing takes less work than swaps + turns / 2
  int plain_swaps = 0;  ///< what it would take were every block one of its own, as the two layouts name them
  double walk = 0;      ///< inches: each swap there and back, and from each to the next
};

/// The least work from quilt.layout to `to`: blocks of equal make-up stand in for each other, so the cells hold in the
/// end blocks of the make-up that `to` has there, turned as it has them. Proven fewest for up to 60 blocks out of place
/// (for most quilts of any size), and never more than the plain swaps. Kept cells are not touched and every step leaves
/// a valid layout.
///
/// Problems (at "/layout/..."): `to` has other empty cells, other make-ups, or moves what is kept.
///
///   const Result<FewestReport> way = fewest_swaps(quilt, planned);
Result<FewestReport> fewest_swaps(const quilt::Quilt& quilt, const setting::Arrangement& to, Seed seed = {});

/// Where each block goes: `to` with every block of the wall named that comes to lie there.
setting::Arrangement arrived(setting::Arrangement wall, const std::vector<Step>& steps);

}  // namespace farflung::swap
