// Many cloths packed so closely that they look like one piece. Internal to photo.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "photo/outline.hpp"

namespace farflung::photo {

/// Where a region of cloth is rows and columns of cloths, all of one size and unlike their neighbours, with hardly a
/// gap between: the outline of each, in the region's pixels. Empty where it is no such thing. `region` is CV_8U, set
/// where there is cloth; `unlike` is CV_32F, how unlike the surface in any shade each pixel is; `lab` CV_32FC3. The
/// last row may be short.
std::vector<Quad> cells_of_block(const cv::Mat& region, const cv::Mat& unlike, const cv::Mat& lab);

}  // namespace farflung::photo
