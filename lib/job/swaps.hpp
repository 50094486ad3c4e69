// The fewest swaps from the layout on the wall to a better one, or to a given one.
#pragma once

#include <cstdint>

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt, its layout the wall as it hangs now.
struct Swaps {
  std::string folder;
  int most = 5;    ///< swaps, at most; a turn alone counts half
  std::string to;  ///< a quilt's folder or a file that holds one layout; empty: whatever is better
  std::uint64_t seed = 1;
};

/// Lists; changes nothing.
Outcome swaps(const Swaps& options);

}  // namespace farflung::job
