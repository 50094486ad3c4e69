// The last fraction of a pixel of a cloth's outline. Internal to photo.
#pragma once

#include <array>

#include <opencv2/core.hpp>

#include "photo/outline.hpp"
#include "photo/surface.hpp"

namespace farflung::photo {

/// A picture as the light it stands for, and the light that the bare surface would send from the same places. A lens
/// blurs light: half way between two lights is where an edge runs, half way between two values of CIELAB is not.
struct Lit {
  cv::Mat rgb;   ///< CV_8UC3, R, G, B
  cv::Mat bare;  ///< CV_32FC3, linear; of any size, stretched over the picture
};

/// `rgb` is CV_8UC3 in the order R, G, B and shared, not copied; the bare surface is worked out at 320 pixels at most.
Lit lit_from(const cv::Mat& rgb, const Surface& surface);

/// Moves the sides of an outline that is good to a pixel or two to where the light is half the cloth's (a little more,
/// for its own shade draws the edge outward) and half the surface's, whatever shade lies on the surface. Farther it
/// does not move them. Pinked sides are known by their teeth and run along the tips.
/// `support` then says how much of each side has a clear edge just there. A side that shows none stays.
Outline sharpened(const Outline& outline, const Lit& lit);

/// The same, side by side: a side moves by at most `reach` of its length, and only where at least half of it shows an
/// edge; the others stay.
struct Sides {
  Quad quad{};
  std::array<double, 4> support{};  ///< from quad[i] to quad[i + 1]
};
Sides sharpened_sides(const Quad& quad, const Lit& lit, double reach);

}  // namespace farflung::photo
