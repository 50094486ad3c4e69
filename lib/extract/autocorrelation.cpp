#include "extract/autocorrelation.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "extract/middle.hpp"
#include "extract/wide_blur.hpp"
#include "photo/lab_table.hpp"

namespace farflung::extract {
namespace {

/// Mean by distance of the steps that `counts`, a weight 0 or 1 by (x, y). A step and its opposite are alike: one half
/// of all steps tells as much.
template <typename Counts>
std::vector<double> means(const cv::Mat& correlation, Counts&& counts) {
  const int half_x = correlation.cols / 2, half_y = correlation.rows / 2, reach = std::min(half_x, half_y);
  std::vector<double> sums(static_cast<std::size_t>(reach) + 1), weights(sums.size());
  for (int y = 0; y <= reach; ++y) {
    const auto* line = correlation.ptr<float>(y + half_y) + half_x;
    for (int x = y == 0 ? 0 : -reach; x <= reach; ++x) {
      if (x * x + y * y >= reach * reach) continue;
      // Between two whole distances it counts for both.
      const double distance = std::sqrt(static_cast<double>(x * x + y * y));
      if (!counts(x, y, distance)) continue;
      const auto near = static_cast<std::size_t>(distance);
      const double far = distance - static_cast<double>(near), here = line[x];
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
  cv::Mat small, around;
  cv::resize(rgb, small, {}, detail.shrink, detail.shrink, cv::INTER_AREA);
  cv::Mat lab = photo::lab_of(small);
  cv::GaussianBlur(lab, lab, {}, 1);
  blur_widely(lab, around, std::max(lab.cols, lab.rows) * slow);
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

cv::Mat autocorrelation(const std::vector<cv::Mat>& channels, double reach) {
  // As much margin as steps reach keeps them from running round.
  const int columns = channels[0].cols, rows = channels[0].rows;
  const int half_x = static_cast<int>(columns * reach), half_y = static_cast<int>(rows * reach);
  const cv::Size size(cv::getOptimalDFTSize(columns + half_x), cv::getOptimalDFTSize(rows + half_y));
  cv::Mat power = cv::Mat::zeros(size, CV_32F), padded, spectrum, back;
  for (const cv::Mat& channel : channels) {
    cv::copyMakeBorder(channel, padded, 0, size.height - rows, 0, size.width - columns, cv::BORDER_CONSTANT, 0);
    cv::dft(padded, spectrum, 0, rows);
    cv::mulSpectrums(spectrum, spectrum, spectrum, 0, true);
    power += spectrum;
  }
  cv::dft(power, back, cv::DFT_INVERSE | cv::DFT_SCALE | cv::DFT_REAL_OUTPUT);
  // Bring the middle to the middle, each step over how many pixels then lie on others.
  const double whole = static_cast<double>(columns) * rows / std::max(1e-12F, back.at<float>(0, 0));
  cv::Mat centred(2 * half_y + 1, 2 * half_x + 1, CV_32F);
  for (int y = -half_y; y <= half_y; ++y) {
    const auto* from = back.ptr<float>((y + size.height) % size.height);
    auto* to = centred.ptr<float>(y + half_y) + half_x;
    for (int x = -half_x; x <= half_x; ++x) {
      const double overlap = static_cast<double>(columns - std::abs(x)) * (rows - std::abs(y));
      to[x] = static_cast<float>(whole * from[x < 0 ? x + size.width : x] / overlap);
    }
  }
  return centred;
}

std::vector<double> by_distance(const cv::Mat& correlation) {
  return means(correlation, [](int, int, double) { return true; });
}

std::vector<double> by_distance(const cv::Mat& correlation, double degrees, double sector) {
  const double angle = degrees * CV_PI / 180, dx = std::cos(angle), dy = std::sin(angle);
  const double least = std::cos(sector * CV_PI / 180);
  return means(correlation, [&](int x, int y, double distance) {
    const double along = std::abs(x * dx + y * dy), across = std::abs(x * dy - y * dx);
    return across <= 1 || along >= least * distance;
  });
}

}  // namespace farflung::extract
