// What to cut and what to buy, with the working.
#pragma once

#include "job/answer.hpp"
#include "job/workroom.hpp"

namespace farflung::job {

/// `folder` holds the quilt; it changes only where spare blocks are taken.
struct ClothWish {
  std::string folder;
  WorkroomWish how;
  bool take_spares = false;  ///< the spare blocks that the cloth allows become blocks of the quilt
};

/// promise_kept is false where the cloth in hand is recorded and is not enough.
Outcome cloth(const ClothWish& options);

/// {"short": ["P01"]}: the prints of which the cloth in hand is recorded and is not enough, as check and cloth say it.
Outcome cloth_short(const std::string& folder);

}  // namespace farflung::job
