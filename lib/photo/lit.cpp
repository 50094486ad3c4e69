#include "photo/lit.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

#include <opencv2/imgproc.hpp>

#include "colour/srgb.hpp"

namespace farflung::photo {
namespace {

const std::array<float, 256>& light_table() {
  static const std::array<float, 256> table = [] {
    std::array<float, 256> t{};
    for (std::size_t i = 0; i < t.size(); ++i) t[i] = static_cast<float>(colour::decoded(static_cast<std::uint8_t>(i)));
    return t;
  }();
  return table;
}

}  // namespace

Lit lit_from(const cv::Mat& rgb, const Surface& surface) {
  cv::Mat small;
  const double shrink = std::min(1.0, 320.0 / std::max(surface.expected.cols, surface.expected.rows));
  cv::resize(surface.expected, small, {}, shrink, shrink, cv::INTER_LINEAR);
  Lit lit{rgb, cv::Mat(small.size(), CV_32FC3)};
  for (int row = 0; row < small.rows; ++row) {
    for (int column = 0; column < small.cols; ++column) {
      const cv::Vec3f lab = small.at<cv::Vec3f>(row, column);
      const colour::Light l = colour::light_from_lab({lab[0], lab[1], lab[2]});
      lit.bare.at<cv::Vec3f>(row, column) = {static_cast<float>(l.r), static_cast<float>(l.g), static_cast<float>(l.b)};
    }
  }
  return lit;
}

cv::Vec3d light_at(const Lit& lit, cv::Point2d place) {
  const cv::Mat& rgb = lit.rgb;
  const double x = std::clamp(place.x, 0.0, rgb.cols - 1.001), y = std::clamp(place.y, 0.0, rgb.rows - 1.001);
  const int column = static_cast<int>(x), row = static_cast<int>(y);
  const double u = x - column, v = y - row;
  const auto *top = rgb.ptr<cv::Vec3b>(row) + column, *below = rgb.ptr<cv::Vec3b>(row + 1) + column;
  const auto& table = light_table();
  cv::Vec3d sum;
  for (int c = 0; c < 3; ++c) {
    sum[c] = (table[top[0][c]] * (1 - u) + table[top[1][c]] * u) * (1 - v) +
             (table[below[0][c]] * (1 - u) + table[below[1][c]] * u) * v;
  }
  return sum;
}

cv::Vec3d bare_at(const Lit& lit, cv::Point2d p) {
  const int column = std::clamp(static_cast<int>((p.x + 0.5) * lit.bare.cols / lit.rgb.cols), 0, lit.bare.cols - 1);
  const int row = std::clamp(static_cast<int>((p.y + 0.5) * lit.bare.rows / lit.rgb.rows), 0, lit.bare.rows - 1);
  return lit.bare.at<cv::Vec3f>(row, column);
}

cv::Vec3d mean_light(const Lit& lit, const Side& side, double along, double first, int count) {
  cv::Vec3d sum;
  for (int i = 0; i < count; ++i) sum += light_at(lit, side.place(along, first + i));
  return sum * (1.0 / count);
}

}  // namespace farflung::photo
