// Everything that helps to lay an outline along the edges of a cloth, put to use. Internal to photo.
#pragma once

#include <algorithm>
#include <optional>

#include <opencv2/core.hpp>

#include "photo/outline.hpp"
#include "photo/sharpen.hpp"
#include "photo/surface.hpp"

namespace farflung::photo {

/// What is known of a picture before its cloths are.
struct Ground {
  cv::Mat rgb;     ///< CV_8UC3 (R, G, B), smoothed a little against noise
  cv::Mat unlike;  ///< CV_32F, standard deviations from the surface in whatever shade; perhaps smaller than the picture
  Surface surface;
  Lit lit;
  std::optional<cv::Matx33d> table_from_photo;  ///< of any turn and size, where something in the picture tells it

  /// Pixels of the picture to one of `unlike`.
  double full_from_small() const { return static_cast<double>(rgb.cols) / unlike.cols; }

  /// At a place in the picture.
  float unlike_at(cv::Point2d p) const {
    return unlike.at<float>(std::clamp(static_cast<int>(p.y / full_from_small()), 0, unlike.rows - 1),
                            std::clamp(static_cast<int>(p.x / full_from_small()), 0, unlike.cols - 1));
  }
};

/// Of the shortest side: how far from a rough outline its cloth's sides lie at most.
constexpr double kUsualReach = 0.06;

/// From a rough outline to the cloth's own edges near it; `reach` is the farthest a side may move, as a share of the
/// shortest side. Where no edge is found, the last good outline stands, its support 0 where there never was one. What
/// is known not to be pinked has no teeth, whatever its print looks like.
Outline located(const Quad& rough, const Ground& ground, double reach = kUsualReach, bool may_be_pinked = true);

}  // namespace farflung::photo
