// Cloths whose gap is too narrow to see through, told apart. Internal to photo.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

namespace farflung::photo {

/// Cuts a region of cloth along straight gaps that run all the way across it, where the cloth on either side differs;
/// again and again until no part has such a gap. `region` is CV_8U, set where there is cloth; `unlike` is CV_32F, how
/// unlike the shaded surface each pixel is; `lab` CV_32FC3. All three are one size. `least` is the area, in pixels, of
/// the smallest part that may be cut off. Gives the parts as masks of the same size; one where nothing is cut.
std::vector<cv::Mat> split_at_gaps(const cv::Mat& region, const cv::Mat& unlike, const cv::Mat& lab, double least);

}  // namespace farflung::photo
