// Which print could take another's places in a quilt that is laid already.
#pragma once

#include <string>
#include <vector>

#include "choice/role.hpp"

namespace farflung::choice {

/// A print that could take the places of another, the layout staying as it is.
struct StandIn {
  int candidate = 0;    ///< index into the list of candidates
  double score = 0;     ///< 0 .. 1, 1 best
  double lighter = 0;   ///< L* above the print that goes; below 0: darker
  double touching = 0;  ///< inches of seam along which it would meet itself: the print lies beside those places already
  int nearest = kNone;  ///< the print that stays and that it is least told apart from (index into the quilt's prints)
  /// CIEDE2000 to that print.
  double nearest_delta_e = 0;
  std::vector<std::string> why;
};

/// Ranks candidates for the places of one print. Those that would not touch themselves come first, whatever their
/// score; then by the score
///
///   0.5 max(0, 1 - |dL*| / 20) + 0.35 min(1, dE00 / 20) + 0.15 (1 - |difference in busyness|),
///
/// dL* against the print that goes (the layout was balanced for its value), dE00 to the nearest of the other prints in
/// use. The print itself is passed over where it is among the candidates.
std::vector<StandIn> rank_stand_ins(const quilt::Quilt& quilt, int print, const std::vector<Candidate>& candidates);

}  // namespace farflung::choice
