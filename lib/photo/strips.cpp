#include "photo/strips.hpp"

#include <algorithm>
#include <cmath>

#include "photo/lab_table.hpp"

namespace farflung::photo {
namespace {

cv::Vec3f mean_lab(const Quad& quad, const cv::Mat& rgb) {
  constexpr int kCount = 12;
  constexpr double kRim = 0.15;
  const LabTable& table = LabTable::get();
  const cv::Point last(rgb.cols - 1, rgb.rows - 1);
  cv::Vec3f sum(0, 0, 0);
  for (const cv::Point2d& p : spread_over(quad, kCount, kRim))
    sum += table.lab(rgb.at<cv::Vec3b>(std::clamp(cvRound(p.y), 0, last.y), std::clamp(cvRound(p.x), 0, last.x)));
  return sum * (1.0F / (kCount * kCount));
}

}  // namespace

bool is_strip(const Quad& quad) {
  constexpr double kThin = 0.25;
  const double across = side_of(quad, 0).length + side_of(quad, 2).length;
  const double down = side_of(quad, 1).length + side_of(quad, 3).length;
  return std::min(across, down) < kThin * std::max(across, down);
}

bool may_be_stripes(const std::vector<Quad>& strips, const cv::Mat& rgb) {
  constexpr std::size_t kLeast = 3;
  constexpr double kAlike = 8;  // dE (1976)
  if (strips.size() < kLeast) return false;
  std::vector<cv::Vec3f> colours;
  colours.reserve(strips.size());
  for (const Quad& strip : strips) colours.push_back(mean_lab(strip, rgb));
  return std::all_of(colours.begin(), colours.end(), [&](const cv::Vec3f& one) {
    // Itself and another.
    return std::count_if(colours.begin(), colours.end(),
                         [&](const cv::Vec3f& other) { return cv::norm(other - one) < kAlike; }) > 1;
  });
}

}  // namespace farflung::photo
