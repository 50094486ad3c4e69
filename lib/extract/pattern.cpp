#include "extract/pattern.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::extract {
namespace {

constexpr int kSide = 384;            ///< pixels of the longer side in which repeats are looked for
constexpr double kLeastContrast = 2;  ///< dE: the weave of plain cloth has less
constexpr double kPeak = 0.12;        ///< autocorrelation of a repeat, at least, above the dip before it

/// CIELAB without its slow changes, channel by channel.
std::vector<cv::Mat> detail(const photo::Picture& swatch, double& shrink) {
  const cv::Mat rgb = photo::view(swatch);
  shrink = std::min(1.0, static_cast<double>(kSide) / std::max(rgb.cols, rgb.rows));
  cv::Mat small, scaled, lab, slow;
  cv::resize(rgb, small, {}, shrink, shrink, cv::INTER_AREA);
  small.convertTo(scaled, CV_32FC3, 1 / 255.0);
  cv::cvtColor(scaled, lab, cv::COLOR_RGB2Lab);
  cv::GaussianBlur(lab, lab, {}, 1);
  cv::GaussianBlur(lab, slow, {}, std::max(lab.cols, lab.rows) / 5.0);
  lab -= slow;
  std::vector<cv::Mat> channels;
  cv::split(lab, channels);
  return channels;
}

/// Autocorrelation, 1 in the middle, corrected for how much of the swatch overlaps itself.
cv::Mat autocorrelation(const std::vector<cv::Mat>& channels) {
  const cv::Size size(cv::getOptimalDFTSize(2 * channels[0].cols), cv::getOptimalDFTSize(2 * channels[0].rows));
  cv::Mat sum = cv::Mat::zeros(size, CV_32F), overlap;
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
  overlap = correlated(cv::Mat::ones(channels[0].size(), CV_32F));
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

/// The mean dE (1976) of the detail.
double contrast(const std::vector<cv::Mat>& channels) {
  cv::Mat squares = cv::Mat::zeros(channels[0].size(), CV_32F), root;
  for (const cv::Mat& channel : channels) squares += channel.mul(channel);
  cv::sqrt(squares, root);
  return cv::mean(root)[0];
}

/// How far from the middle the nearest strong peak lies, in pixels.
std::optional<double> nearest_peak(const cv::Mat& correlation) {
  const int cx = correlation.cols / 2, cy = correlation.rows / 2;
  cv::Mat highest;
  cv::dilate(correlation, highest, cv::getStructuringElement(cv::MORPH_ELLIPSE, {9, 9}));
  double dip = 1, most = 0;
  cv::minMaxLoc(correlation, &dip);
  struct Peak {
    double distance, height;
  };
  std::vector<Peak> peaks;
  for (int y = 4; y + 4 < correlation.rows; ++y) {
    for (int x = 4; x + 4 < correlation.cols; ++x) {
      const float here = correlation.at<float>(y, x);
      const double distance = std::hypot(x - cx, y - cy);
      if (distance < 5 || here < highest.at<float>(y, x) || here < std::max(kPeak, dip + kPeak)) continue;
      peaks.push_back({distance, here});
      most = std::max(most, static_cast<double>(here));
    }
  }
  std::optional<double> nearest;
  for (const Peak& peak : peaks) {
    if (peak.height > 0.7 * most && (!nearest || peak.distance < *nearest)) nearest = peak.distance;
  }
  return nearest;
}

/// The period of a stripe: the first peak of the autocorrelation straight across it, to a fraction of a pixel.
std::optional<double> stripe_period(const cv::Mat& correlation, double degrees) {
  const double angle = (degrees + 90) * CV_PI / 180, dx = std::cos(angle), dy = std::sin(angle);
  const double reach = std::min(correlation.cols / 2 / std::max(1e-6, std::abs(dx)),
                                correlation.rows / 2 / std::max(1e-6, std::abs(dy))) -
                       2;
  std::vector<double> along;
  for (int i = 0; i < reach; ++i) {
    const double x = correlation.cols / 2 + i * dx, y = correlation.rows / 2 + i * dy;
    const int column = cvFloor(x), row = cvFloor(y);
    const double u = x - column, v = y - row;
    const auto at = [&](int c, int r) { return static_cast<double>(correlation.at<float>(row + r, column + c)); };
    along.push_back((at(0, 0) * (1 - u) + at(1, 0) * u) * (1 - v) + (at(0, 1) * (1 - u) + at(1, 1) * u) * v);
  }
  double dip = 1, most = 0;
  std::vector<std::pair<double, double>> peaks;  // where, how high
  for (std::size_t i = 2; i + 2 < along.size(); ++i) {
    dip = std::min(dip, along[i]);
    const double before = along[i - 1], here = along[i], after = along[i + 1];
    if (here < before || here <= after || here < dip + kPeak) continue;
    peaks.emplace_back(static_cast<double>(i) + 0.5 * (before - after) / (before - 2 * here + after), here);
    most = std::max(most, here);
  }
  for (const auto& [where, height] : peaks) {
    if (height > 0.8 * most) return where;
  }
  return {};
}

print::Direction direction_of(const std::vector<cv::Mat>& channels) {
  double xx = 0, xy = 0, yy = 0;
  for (const cv::Mat& channel : channels) {
    cv::Mat dx, dy;
    cv::Sobel(channel, dx, CV_32F, 1, 0, 3);
    cv::Sobel(channel, dy, CV_32F, 0, 1, 3);
    const cv::Rect inner(2, 2, channel.cols - 4, channel.rows - 4);
    xx += dx(inner).dot(dx(inner)), xy += dx(inner).dot(dy(inner)), yy += dy(inner).dot(dy(inner));
  }
  const double coherence = std::hypot(xx - yy, 2 * xy) / std::max(1e-9, xx + yy);
  if (coherence < 0.75) return {};
  // The gradient runs across the stripe.
  double degrees = 0.5 * std::atan2(2 * xy, xx - yy) * 180 / CV_PI + 90;
  degrees = std::fmod(degrees + 360, 180);
  return {print::Direction::Kind::stripe, degrees};
}

}  // namespace

Repeat repeat_of(const photo::Picture& swatch) {
  double shrink = 1;
  const std::vector<cv::Mat> channels = detail(swatch, shrink);
  Repeat repeat;
  if (contrast(channels) < kLeastContrast || std::min(channels[0].cols, channels[0].rows) < 32) return repeat;
  repeat.direction = direction_of(channels);
  const cv::Mat correlation = autocorrelation(channels);
  const bool striped = repeat.direction.kind == print::Direction::Kind::stripe;
  const auto size = striped ? stripe_period(correlation, repeat.direction.degrees) : nearest_peak(correlation);
  if (size) repeat.size = *size / shrink;
  return repeat;
}

}  // namespace farflung::extract
