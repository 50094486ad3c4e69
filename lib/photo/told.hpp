// Cloth told from the surface that it lies on, pixel by pixel. Internal to photo.
#pragma once

#include <opencv2/core.hpp>

#include "photo/surface.hpp"

namespace farflung::photo {

/// Where there is cloth, and how unlike the surface everything is.
struct Told {
  cv::Mat cloth;   ///< CV_8U, 255 where there is cloth
  cv::Mat unlike;  ///< CV_32F, standard deviations from the surface in whatever shade
};

/// Cloth is all that a flood of surface from the rim does not reach. Thin strips of shaded surface are let through too,
/// for they are the gaps between cloths; broad ones may be cloth of a darker shade. `rgb` is CV_8UC3, `surface`
/// stretched over it; `thin` is in its pixels.
Told told_from(const cv::Mat& rgb, const Surface& surface, double thin);

}  // namespace farflung::photo
