// A shade that something casts on the plain surface: a hand's, a head's, the telephone's. Internal to photo.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "photo/surface.hpp"

namespace farflung::photo {

/// A surface under the shades that lie on it.
struct Shaded {
  cv::Mat expected;  ///< CV_32FC3, CIELAB of the bare surface at each pixel
  cv::Mat seen;      ///< CV_8U, 255 where the surface itself is surely seen
};

/// Follows the light across the surface. `lab` is what `surface` was fitted to. A cast shade has the surface's hue, and
/// its rim is soft; a cloth of that hue ends sharply. So whatever is lit less (or more) belongs to the surface where
/// one gets to it from plain surface, or from the picture's rim, without crossing anything sharp; under cloth the light
/// runs on as straight as what is seen about it allows. None where too little of the surface is smooth enough to tell.
std::optional<Shaded> shade_on(const cv::Mat& lab, const Surface& surface);

}  // namespace farflung::photo
