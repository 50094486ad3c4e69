// A picture as light, beside the light of the bare surface. Internal to photo.
#pragma once

#include <opencv2/core.hpp>

#include "photo/sides.hpp"
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

/// Linear light, 0..1 each of R, G and B, between the four pixels about a place; beyond the rim, what the rim shows.
cv::Vec3d light_at(const Lit& lit, cv::Point2d place);

/// The light of the bare surface there, unshaded.
cv::Vec3d bare_at(const Lit& lit, cv::Point2d place);

/// Mean light of `count` places a pixel apart across the side, `along` 0..1 of it, from `first` outward.
cv::Vec3d mean_light(const Lit& lit, const Side& side, double along, double first, int count);

}  // namespace farflung::photo
