// The sheet's marks where they are too small or blurred for their cells to be read one by one. Internal to photo.
#pragma once

#include <array>
#include <vector>

#include <opencv2/core.hpp>

namespace farflung::photo {

/// One of sheet_plan().marks in a picture.
struct MarkSeen {
  int id = 0;
  std::array<cv::Point2f, 4> corners;  ///< clockwise from its own top left; pixel centres are whole numbers
};

/// Which of the quadrilaterals, each clockwise, is which mark: by how much it is like a mark as a whole, at any turn,
/// and unlike the others. `grey` is CV_8U.
std::vector<MarkSeen> blurred_marks(const cv::Mat& grey, const std::vector<std::vector<cv::Point2f>>& quads);

}  // namespace farflung::photo
