// What of a swatch is surely its cloth.
#pragma once

#include <algorithm>

#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::extract {

/// The swatch without its rim, where an outline a little off, or the frame of a close-up, shows something else: 1/32 of
/// each side. The pixels stay the swatch's own.
inline cv::Mat middle_of(const photo::Picture& swatch) {
  const cv::Mat whole = photo::view(swatch);
  const int x = whole.cols / 32, y = whole.rows / 32;
  return whole(cv::Rect(x, y, whole.cols - 2 * x, whole.rows - 2 * y));
}

/// So many times as large; of a sliver, too, at least a pixel is left across.
inline cv::Mat zoomed(const cv::Mat& picture, double factor) {
  cv::Mat result;
  const int way = factor < 1 ? cv::INTER_AREA : cv::INTER_LINEAR;
  const int columns = cvRound(factor * picture.cols), rows = cvRound(factor * picture.rows);
  if (std::min(columns, rows) > 0) {
    cv::resize(picture, result, {}, factor, factor, way);
  } else {
    cv::resize(picture, result, {std::max(1, columns), std::max(1, rows)}, 0, 0, way);
  }
  return result;
}

/// With its longer side at most so many pixels.
inline cv::Mat shrunk_to(const cv::Mat& picture, int side) {
  return zoomed(picture, std::min(1.0, static_cast<double>(side) / std::max(picture.cols, picture.rows)));
}

}  // namespace farflung::extract
