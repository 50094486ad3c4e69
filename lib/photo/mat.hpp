// A Picture as OpenCV sees it. Only photo, extract and wall include this.
#pragma once

#include <cstring>

#include <opencv2/core.hpp>

#include "photo/picture.hpp"

namespace farflung::photo {

/// The same bytes, CV_8UC3 in the order R, G, B; valid as long as `picture` is. Not to be written to.
inline cv::Mat view(const Picture& picture) {
  return {picture.rows, picture.columns, CV_8UC3, const_cast<std::uint8_t*>(picture.rgb.data())};
}

/// A copy of an R, G, B CV_8UC3 matrix.
inline Picture picture_from(const cv::Mat& rgb) {
  Picture picture(rgb.cols, rgb.rows);
  for (int row = 0; row < rgb.rows; ++row) {
    std::memcpy(&picture.rgb[3 * static_cast<std::size_t>(row) * rgb.cols], rgb.ptr(row),
                3 * static_cast<std::size_t>(rgb.cols));
  }
  return picture;
}

}  // namespace farflung::photo
