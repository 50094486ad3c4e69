// What a camera's file does to a photograph.
#pragma once

#include <opencv2/core.hpp>

namespace farflung::simulator {

/// CV_8UC3 after it was written as a JPEG of this quality and read again; as it was where the simulator is built
/// without OpenCV's codecs.
cv::Mat through_jpeg(const cv::Mat& srgb, int quality);

}  // namespace farflung::simulator
