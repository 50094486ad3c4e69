// What of a swatch is surely its cloth.
#pragma once

#include "photo/mat.hpp"

namespace farflung::extract {

/// The swatch without its rim, where an outline a little off, or the frame of a close-up, shows something else: 1/32 of
/// each side. The pixels stay the swatch's own.
inline cv::Mat middle_of(const photo::Picture& swatch) {
  const cv::Mat whole = photo::view(swatch);
  const int x = whole.cols / 32, y = whole.rows / 32;
  return whole(cv::Rect(x, y, whole.cols - 2 * x, whole.rows - 2 * y));
}

}  // namespace farflung::extract
