// What to cut and what to buy, with the working.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

struct ClothWish {
  std::string folder;
  int kits = 0;             ///< for a class or a shop; 0: none
  bool prewashed = false;   ///< the cloth will be washed first: what is bought allows for its shrinking
  bool sixteenths = false;  ///< cut to 1/16 in, not 1/8
};

/// promise_kept is false where the cloth in hand is recorded and is not enough.
Outcome cloth(const ClothWish& options);

}  // namespace farflung::job
