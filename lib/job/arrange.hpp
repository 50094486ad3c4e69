// Make-up and layout.
#pragma once

#include <cstdint>

#include "job/answer.hpp"

namespace farflung::job {

struct Arrange {
  std::string folder;
  std::uint64_t seed = 1;
  double effort = 1;  ///< work as a multiple of the usual, not seconds
  std::string
      blocks;  ///< "open": prints are dealt anew; "sewn": blocks are as they are; empty: open where a slot has no print
  bool dry_run = false;
};

/// Deals prints to slots where blocks are open, places and turns the blocks, saves. Kept cells stay.
/// promise_kept is false where touches are left.
Outcome arrange(const Arrange& options, const Watch& watch);

}  // namespace farflung::job
