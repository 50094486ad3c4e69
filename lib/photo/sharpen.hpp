// The last fraction of a pixel of a cloth's outline. Internal to photo.
#pragma once

#include <array>

#include <opencv2/core.hpp>

#include "photo/lit.hpp"
#include "photo/outline.hpp"

namespace farflung::photo {

/// An outline and how much of each of its sides has a clear edge just there.
struct Sharpened {
  Outline outline;                  ///< `support` is the least of the four
  std::array<double, 4> support{};  ///< 0..1, from quad[i] to quad[i + 1]
};

/// Moves the sides of an outline that is good to a pixel or two to where the light is half the cloth's (a little more,
/// for its own shade draws the edge outward) and half the surface's, whatever shade lies on the surface. Farther than
/// `most_moved` pixels it does not move them, but for teeth. Pinked sides are known by their teeth and run along the
/// tips, unless they are known not to be pinked. A side that shows no edge stays.
Sharpened sharpened(const Outline& outline, const Lit& lit, double most_moved, bool may_be_pinked = true);

/// The same, side by side: a side moves by at most `reach` of its length, and only where at least half of it shows an
/// edge; the others stay. Sides along the tips of teeth lie `beyond` pixels outward of that edge.
struct Sides {
  Quad quad{};
  std::array<double, 4> support{};  ///< from quad[i] to quad[i + 1]
};
Sides sharpened_sides(const Quad& quad, const Lit& lit, double reach, double beyond = 0);

}  // namespace farflung::photo
