// Where the reference sheet's marks are. Internal to photo.
#pragma once

#include <opencv2/aruco.hpp>

namespace farflung::photo {

constexpr int kMarkCells = 6;
constexpr double kMarkSide = 1.14;                               ///< inches
constexpr double kMarksHalfWidth = 3.6, kMarksHalfHeight = 4.9;  ///< inches from the middle to their outer edges

inline cv::Ptr<cv::aruco::Dictionary> mark_dictionary() {
  return cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_50);
}

}  // namespace farflung::photo
