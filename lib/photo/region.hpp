// Regions of pixels and the quadrilaterals that they nearly are. Internal to photo.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "photo/sides.hpp"

namespace farflung::photo {

/// The four corners that the hull of some points has most nearly, clockwise from the top left.
Quad four_corners(const std::vector<cv::Point>& points);

/// The quadrilateral that runs along four sides of the points' hull, the others let go one by one, whichever widens it
/// least: a cloth's, of whose corners little is seen. From the top left; as four_corners where the hull has no four.
Quad circumscribed(const std::vector<cv::Point>& points);

/// The same corners, the top left one first.
Quad from_top_left(Quad quad);

/// Area shared over area covered by either, 0..1, of a quad and a region (CV_8U) in whose pixels it is.
double agreement(const Quad& quad, const cv::Mat& region);

/// To the pixels of a picture so much larger.
Quad scaled(const Quad& quad, double factor);
Quad moved(const Quad& quad, cv::Point by);

/// `box` with so many pixels more on each side, as far as a picture of that size allows.
cv::Rect with_rim(const cv::Rect& box, int rim, cv::Size picture);

/// The box of a component, by the statistics of cv::connectedComponentsWithStats.
cv::Rect box_of(const cv::Mat& stats, int component);

}  // namespace farflung::photo
