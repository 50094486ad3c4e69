// From a rough outline of a piece of cloth to one good to a fraction of a pixel. Internal to photo.
#pragma once

#include <opencv2/core.hpp>

#include "photo/sides.hpp"
#include "photo/surface.hpp"

namespace farflung::photo {

/// A finished outline and how well the picture bears it out.
struct Outline {
  Quad quad{};
  double support = 0;    ///< 0..1, the least of the four sides: how much of it lies on an edge of the cloth
  double depth = 0;      ///< pixels: how far inward the cloth's cut edge wanders (pinking, fraying)
  bool toothed = false;  ///< whether teeth of one pitch run along it
  bool pinked = false;   ///< whether they are plainly those of pinking shears, all round
};

/// Moves each side of `rough` onto the edge of the cloth that runs along it: the first, coming from the bare surface
/// nearest by. Sides are searched within `reach` pixels. `rgb` is CV_8UC3 (R, G, B), `surface` is stretched
/// over it. Shade beside the cloth is not cloth. A pinked side runs along the tips.
Outline refined(const Quad& rough, const cv::Mat& rgb, const Surface& surface, double reach);

}  // namespace farflung::photo
