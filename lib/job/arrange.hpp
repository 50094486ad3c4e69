// Make-up and layout.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt, to which what is found is saved as one version. Others may save it meanwhile: where they
/// leave alone all that the arrangement was made for, what is found goes into what they saved, else it is refused and
/// says what they changed.
struct Arrange {
  std::string folder;
  std::uint64_t seed = 1;
  double effort = 1;              ///< work as a multiple of the usual, not seconds
  std::optional<double> seconds;  ///< in place of effort: what comes of it then depends on the machine
  std::string blocks;  ///< "open": prints are dealt anew; "sewn": as they are; empty: open where no block has all its
                       ///< prints; where some have, the others alone are dealt theirs
  std::vector<std::string> add;  ///< prints that are dealt beside those that blocks hold already: id, code or name
  int triangles = 2;             ///< half-square triangles that come from one square: 2, 4 or 8
  /// Nothing is saved.
  bool dry_run = false;
};

/// Deals prints to slots where blocks are open, places and turns the blocks, saves. Kept cells stay.
/// promise_kept is false where touches are left.
Outcome arrange(const Arrange& options, const Watch& watch);

}  // namespace farflung::job
