// The regions of the top and the casts they have, to be laid over its picture.
#pragma once

#include "job/edit.hpp"

namespace farflung::job {

/// {"scale", "mean": "#8a9a7b", "casts": [{"cell", "colour", "leans", "strength"}]}: for every cell that holds a block,
/// by its place in the list of drawn(), how the region around it (a window of `scale` pitches, as evenness weighs it)
/// leaves the whole. `colour` is the region's with its distance from the mean stretched four times, so that an eye sees
/// what is felt across a room; leans says the strongest part of it in a word, "darker"; strength 1 is usual in a
/// shuffle. No casts where no block differs from another.
Outcome casts(const std::string& folder, Reckoning& reckoning);

}  // namespace farflung::job
