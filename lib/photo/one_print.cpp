#include "photo/one_print.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/median.hpp"
#include "photo/lab_table.hpp"

namespace farflung::photo {
namespace {

/// What a piece looks like from a step away, under the light in the middle of the picture.
struct Look {
  cv::Vec3f mean;     ///< CIELAB, from black
  double spread = 0;  ///< standard deviation about it, dE (1976)
};

bool alike(const Look& a, const Look& b) {
  constexpr double kNear = 4, kLeast = 1.5, kShare = 0.3;  // dE; dE and share, that spreads differ by
  return cv::norm(a.mean - b.mean) < kNear &&
         std::abs(a.spread - b.spread) < std::max(kLeast, kShare * std::max(a.spread, b.spread));
}

cv::Vec3f bare_at(const Surface& surface, cv::Point2d place, cv::Size picture) {
  const cv::Mat& bare = surface.expected;
  const auto within = [](double share, int count) { return std::clamp(static_cast<int>(share * count), 0, count - 1); };
  return from_black(
      bare.at<cv::Vec3f>(within(place.y / picture.height, bare.rows), within(place.x / picture.width, bare.cols)));
}

Look look_of(const Quad& piece, const cv::Mat& rgb, const Surface& surface) {
  constexpr int kPlaces = 16;    // along each side
  constexpr double kRim = 0.08;  // left out: beyond it may lie surface
  const LabTable& table = LabTable::get();
  const cv::Vec3f usual = bare_at(surface, {rgb.cols / 2.0, rgb.rows / 2.0}, rgb.size());
  cv::Vec3d sum, squares;
  int count = 0;
  for (const cv::Point2d& place : spread_over(piece, kPlaces, kRim)) {
    const int column = cvRound(place.x), row = cvRound(place.y);
    if (column < 0 || row < 0 || column >= rgb.cols || row >= rgb.rows) continue;
    const float light = root_of_light(bare_at(surface, place, rgb.size()), usual);
    const cv::Vec3d lab = from_black(table.lab(rgb.at<cv::Vec3b>(row, column))) / std::max(light, 0.1F);
    sum += lab;
    squares += lab.mul(lab);
    ++count;
  }
  const cv::Vec3d mean = sum / std::max(1, count);
  const cv::Vec3d variance = squares / std::max(1, count) - mean.mul(mean);
  return {mean, std::sqrt(std::max(0.0, variance[0] + variance[1] + variance[2]))};
}

}  // namespace

bool are_of_one_print(const std::vector<Quad>& pieces, const cv::Mat& rgb, const Surface& surface) {
  constexpr std::size_t kFew = 4;
  constexpr double kMotif = 0.05;  // of the picture
  if (pieces.size() < kFew) return false;
  std::vector<double> areas;
  areas.reserve(pieces.size());
  for (const Quad& piece : pieces) areas.push_back(std::abs(area(piece)) / static_cast<double>(rgb.total()));
  if (median(areas) > kMotif) return false;
  std::vector<Look> looks;
  for (const Quad& piece : pieces) {
    const Look look = look_of(piece, rgb, surface);
    if (std::none_of(looks.begin(), looks.end(), [&](const Look& other) { return alike(look, other); }))
      looks.push_back(look);
  }
  return 2 * looks.size() <= pieces.size();
}

}  // namespace farflung::photo
