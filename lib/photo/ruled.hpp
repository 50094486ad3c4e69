// Lines that are ruled on a table: a cutting mat's, or the joints between boards or tiles. Internal to photo.
#pragma once

#include <opencv2/core.hpp>

namespace farflung::photo {

/// The thin lines among what is `unlike` a surface (CV_8U, 255 where it is), where so many cross the rim of the picture
/// that the surface must be ruled; CV_8U, as large. Empty where it is not.
cv::Mat ruled_lines(const cv::Mat& unlike);

}  // namespace farflung::photo
