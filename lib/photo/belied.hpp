// What lies between two lines that may be a cloth's side. Internal to photo.
#pragma once

#include "photo/lit.hpp"
#include "photo/sides.hpp"

namespace farflung::photo {

/// How much of what lies between a side of `found` and the same side of `supposed` speaks against the latter: surface,
/// in a shade or not, where it has cloth, or what is no surface where it has none. In pixels of width, 0 where nothing
/// does or where the two are one.
double belied(const Quad& supposed, const Quad& found, int side, const Lit& lit);

}  // namespace farflung::photo
