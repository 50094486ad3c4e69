#include "extract/wide_blur.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

namespace farflung::extract {

void blur_widely(const cv::Mat& picture, cv::Mat& blurred, double sigma) {
  constexpr double kEnough = 4;  // deviation in the smaller picture: its pixels are then fine beside the blur
  const int factor = static_cast<int>(sigma / kEnough);
  if (factor < 2) {
    cv::GaussianBlur(picture, blurred, {}, sigma);
    return;
  }
  // A box of `factor` pixels and the line drawn between the smaller pixels blur by themselves, each by a variance of
  // about factor^2 / 12 and factor^2 / 6.
  const double left = std::sqrt(sigma * sigma - factor * factor / 4.0) / factor;
  cv::Mat small;
  const cv::Size size(std::max(1, picture.cols / factor), std::max(1, picture.rows / factor));
  cv::resize(picture, small, size, 0, 0, cv::INTER_AREA);
  cv::GaussianBlur(small, small, {}, left);
  cv::resize(small, blurred, picture.size(), 0, 0, cv::INTER_LINEAR);
}

}  // namespace farflung::extract
