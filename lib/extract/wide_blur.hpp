// Blurs so wide that few pixels carry them.
#pragma once

#include <opencv2/core.hpp>

namespace farflung::extract {

/// A Gaussian blur of deviation `sigma` pixels, to within a hundredth of its contrast: where it is wide it is worked
/// out in a picture as much smaller, at a cost that hardly grows with sigma. CV_32F of any channels.
void blur_widely(const cv::Mat& picture, cv::Mat& blurred, double sigma);

}  // namespace farflung::extract
