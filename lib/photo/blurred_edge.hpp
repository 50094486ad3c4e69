// How well a line explains what the picture shows on both sides of it. Internal to photo.
#pragma once

#include "photo/lit.hpp"
#include "photo/sides.hpp"

namespace farflung::photo {

/// How badly a blurred step along side `index` (0..3) of a quad explains the light about it: 0 where it does so wholly,
/// 1 where not at all. Outside there should be the surface, in a shade, inside what the cloth shows just within, and
/// between them the two mixed as a lens mixes them: whichever blur of a few explains most.
double misfit_of_edge(const Quad& quad, int index, const Lit& lit);

}  // namespace farflung::photo
