// From a rough outline of a piece of cloth to one good to a fraction of a pixel. Internal to photo.
#pragma once

#include <opencv2/core.hpp>

#include "photo/sides.hpp"
#include "photo/surface.hpp"
#include "photo/teeth.hpp"

namespace farflung::photo {

/// A finished outline and how well the picture bears it out.
struct Outline {
  Quad quad{};
  double support = 0;    ///< 0..1, the least of the four sides: how much of it lies on an edge of the cloth
  double depth = 0;      ///< pixels: how far inward the cloth's cut edge wanders (pinking, fraying)
  double pitch = 0;      ///< pixels, of the teeth that run along it; 0 where there are none
  bool at_tips = false;  ///< whether it runs along their tips, not half way up them
  bool pinked = false;   ///< whether they are plainly those of pinking shears, all round

  /// Pixels that it runs outward of where its edge is told best, half way up the teeth.
  double beyond_edge() const { return at_tips ? kToothDepth * pitch / 2 : 0; }
};

/// Moves each side of `rough` onto the edge of the cloth that runs along it: the first, coming from the bare surface
/// nearest by. Sides are searched within `reach` pixels. `rgb` is CV_8UC3 (R, G, B), `surface` is stretched
/// over it. Shade beside the cloth is not cloth. A pinked side runs along the tips, unless it is known not to be
/// pinked.
Outline refined(const Quad& rough, const cv::Mat& rgb, const Surface& surface, double reach, bool may_be_pinked = true);

}  // namespace farflung::photo
