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
  constexpr double kAlike = 6;  // dE (1976)
  if (strips.size() < kLeast) return false;
  const cv::Vec3f first = mean_lab(strips[0], rgb);
  return std::all_of(strips.begin(), strips.end(),
                     [&](const Quad& strip) { return cv::norm(mean_lab(strip, rgb) - first) < kAlike; });
}

}  // namespace farflung::photo
