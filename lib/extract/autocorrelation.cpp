#include "extract/autocorrelation.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "extract/middle.hpp"

namespace farflung::extract {
namespace {

/// Mean by distance of the steps that `counts`, a weight 0 or 1 by (x, y).
template <typename Counts>
std::vector<double> means(const cv::Mat& correlation, Counts&& counts) {
  const int half_x = correlation.cols / 2, half_y = correlation.rows / 2, reach = std::min(half_x, half_y);
  std::vector<double> sums(static_cast<std::size_t>(reach) + 1), weights(sums.size());
  for (int y = -half_y; y <= half_y; ++y) {
    for (int x = -half_x; x <= half_x; ++x) {
      // Between two whole distances it counts for both.
      const double distance = std::hypot(x, y);
      const auto near = static_cast<std::size_t>(distance);
      if (near + 1 >= sums.size() || !counts(x, y)) continue;
      const double far = distance - static_cast<double>(near), here = correlation.at<float>(y + half_y, x + half_x);
      sums[near] += (1 - far) * here, weights[near] += 1 - far;
      sums[near + 1] += far * here, weights[near + 1] += far;
    }
  }
  for (std::size_t i = 0; i < sums.size(); ++i) sums[i] = weights[i] > 0 ? sums[i] / weights[i] : 0;
  std::vector<double> smooth = sums;
  for (std::size_t i = 1; i + 1 < sums.size(); ++i) smooth[i] = (sums[i - 1] + 2 * sums[i] + sums[i + 1]) / 4;
  return smooth;
}

}  // namespace

Detail detail_of(const photo::Picture& swatch, int side, double slow) {
  const cv::Mat rgb = middle_of(swatch);
  Detail detail;
  detail.shrink = std::min(1.0, static_cast<double>(side) / std::max(rgb.cols, rgb.rows));
  cv::Mat small, scaled, lab, around;
  cv::resize(rgb, small, {}, detail.shrink, detail.shrink, cv::INTER_AREA);
  small.convertTo(scaled, CV_32FC3, 1 / 255.0);
  cv::cvtColor(scaled, lab, cv::COLOR_RGB2Lab);
  cv::GaussianBlur(lab, lab, {}, 1);
  cv::GaussianBlur(lab, around, {}, std::max(lab.cols, lab.rows) * slow);
  lab -= around;
  cv::split(lab, detail.channels);
  return detail;
}

double contrast(const std::vector<cv::Mat>& channels) {
  cv::Mat squares = cv::Mat::zeros(channels[0].size(), CV_32F), root;
  for (const cv::Mat& channel : channels) squares += channel.mul(channel);
  cv::sqrt(squares, root);
  return cv::mean(root)[0];
}

cv::Mat autocorrelation(const std::vector<cv::Mat>& channels) {
  const cv::Size size(cv::getOptimalDFTSize(2 * channels[0].cols), cv::getOptimalDFTSize(2 * channels[0].rows));
  cv::Mat sum = cv::Mat::zeros(size, CV_32F);
  const auto correlated = [&](const cv::Mat& channel) {
    cv::Mat padded, spectrum, back;
    cv::copyMakeBorder(channel, padded, 0, size.height - channel.rows, 0, size.width - channel.cols,
                       cv::BORDER_CONSTANT, 0);
    cv::dft(padded, spectrum);
    cv::mulSpectrums(spectrum, spectrum, spectrum, 0, true);
    cv::dft(spectrum, back, cv::DFT_INVERSE | cv::DFT_SCALE | cv::DFT_REAL_OUTPUT);
    return back;
  };
  for (const cv::Mat& channel : channels) sum += correlated(channel);
  const cv::Mat overlap = correlated(cv::Mat::ones(channels[0].size(), CV_32F));
  cv::Mat result = sum / cv::max(overlap, 0.1 * overlap.at<float>(0, 0));
  result /= result.at<float>(0, 0);
  // Bring the middle to the middle: only half the swatch's width and height of steps are believable.
  const int half_x = channels[0].cols / 2, half_y = channels[0].rows / 2;
  cv::Mat centred(2 * half_y + 1, 2 * half_x + 1, CV_32F);
  for (int y = -half_y; y <= half_y; ++y) {
    for (int x = -half_x; x <= half_x; ++x) {
      centred.at<float>(y + half_y, x + half_x) =
          result.at<float>((y + size.height) % size.height, (x + size.width) % size.width);
    }
  }
  return centred;
}

std::vector<double> by_distance(const cv::Mat& correlation) {
  return means(correlation, [](int, int) { return true; });
}

std::vector<double> by_distance(const cv::Mat& correlation, double degrees, double sector) {
  const double angle = degrees * CV_PI / 180, dx = std::cos(angle), dy = std::sin(angle);
  const double least = std::cos(sector * CV_PI / 180);
  return means(correlation, [&](int x, int y) {
    const double along = std::abs(x * dx + y * dy), across = std::abs(x * dy - y * dx);
    return across <= 1 || along >= least * std::hypot(x, y);
  });
}

}  // namespace farflung::extract
