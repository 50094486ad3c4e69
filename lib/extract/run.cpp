#include "extract/run.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

namespace farflung::extract {

Tensor tensor_of(const std::vector<cv::Mat>& channels) {
  Tensor tensor;
  const cv::Size size = channels[0].size();
  for (cv::Mat* part : {&tensor.xx, &tensor.xy, &tensor.yy}) *part = cv::Mat::zeros(size, CV_32F);
  cv::Mat dx, dy;
  for (const cv::Mat& channel : channels) {
    cv::Sobel(channel, dx, CV_32F, 1, 0, 3);
    cv::Sobel(channel, dy, CV_32F, 0, 1, 3);
    cv::accumulateProduct(dx, dx, tensor.xx);
    cv::accumulateProduct(dx, dy, tensor.xy);
    cv::accumulateProduct(dy, dy, tensor.yy);
  }
  return tensor;
}

Run run_of(const Tensor& tensor, int rim) {
  const cv::Rect inner(rim, rim, tensor.xx.cols - 2 * rim, tensor.xx.rows - 2 * rim);
  const auto sum = [&](const cv::Mat& part) { return cv::sum(part(inner))[0]; };
  const double xx = sum(tensor.xx), xy = sum(tensor.xy), yy = sum(tensor.yy);
  // The gradient runs across the stripe.
  const double degrees = 0.5 * std::atan2(2 * xy, xx - yy) * 180 / CV_PI + 90;
  return {std::fmod(degrees + 360, 180), std::hypot(xx - yy, 2 * xy) / std::max(1e-9, xx + yy)};
}

std::vector<cv::Mat> ways_of(const Tensor& tensor) {
  constexpr int kShrink = 3;
  constexpr double kTogether = 2;  // pixels of the smaller: as much cloth as shows a way
  Tensor small;
  const auto shrunk = [&](const cv::Mat& part, cv::Mat& to) {
    cv::resize(part, to, part.size() / kShrink, 0, 0, cv::INTER_AREA);
    cv::GaussianBlur(to, to, {}, kTogether);
  };
  shrunk(tensor.xx, small.xx), shrunk(tensor.xy, small.xy), shrunk(tensor.yy, small.yy);
  const cv::Mat all = small.xx + small.yy + 1e-3;
  return {(small.xx - small.yy) / all, 2 * small.xy / all};
}

}  // namespace farflung::extract
