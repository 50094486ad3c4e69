// The lines that best part a cloth's colours from its surface's. Internal to photo.
#pragma once

#include <array>

#include <opencv2/core.hpp>

#include "photo/sides.hpp"
#include "photo/surface.hpp"

namespace farflung::photo {

/// An outline and how well its sides part two kinds of colours.
struct Parted {
  Quad quad{};
  std::array<double, 4> clear{};  ///< from quad[i] to quad[i + 1]: mean log likelihood ratio of a pixel beside the side
};

/// Moves each side of `rough`, both ends by up to `reach` pixels on their own, to where the pixels just outside are
/// likeliest the surface's, in sun or shade, and those just inside the cloth's, whose colours are counted within the
/// outline. Good to about a pixel; it needs no edge that is clear at any one place. Where the two are
/// hardly told apart, the side stays. `rgb` is CV_8UC3 (R, G, B);
/// `surface` is stretched over it.
Parted parted(const Quad& rough, const cv::Mat& rgb, const Surface& surface, double reach);

}  // namespace farflung::photo
