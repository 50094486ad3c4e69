#include "wall/bare_wall.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/core.hpp>

#include "base/median.hpp"

namespace farflung::wall {
namespace {

constexpr std::size_t kLeastStretches = 6;
/// Standard deviations of the looks from one piece of a wall to the next: at the least, and where a wall is too uneven.
constexpr double kLeastOfValue = 0.05, kLeast = 0.03, kTooUneven = 0.25;

/// A plane through `values`, those that are far off it left out of account.
std::array<double, 3> plane_through(const std::vector<Stretch>& band, int look) {
  std::vector<double> weight(band.size(), 1);
  cv::Vec3d plane;
  for (int round = 0; round < 6; ++round) {
    cv::Matx33d normal = cv::Matx33d::eye() * 1e-6;
    cv::Vec3d right;
    for (std::size_t s = 0; s < band.size(); ++s) {
      const cv::Vec3d row(1, band[s].x, band[s].y);
      normal += weight[s] * row * row.t();
      right += weight[s] * band[s].look[look] * row;
    }
    plane = normal.solve(right, cv::DECOMP_CHOLESKY);
    std::vector<double> off;
    off.reserve(band.size());
    for (const Stretch& each : band) {
      off.push_back(std::abs(each.look[look] - plane.dot({1, each.x, each.y})));
    }
    const double deviation = std::max(0.01, 1.4826 * median(off));
    for (std::size_t s = 0; s < band.size(); ++s)
      weight[s] = 1 / std::pow(1 + std::pow(off[s] / (2 * deviation), 2), 2);
  }
  return {plane[0], plane[1], plane[2]};
}

}  // namespace

std::optional<BareWall> BareWall::from(const std::vector<Stretch>& band) {
  if (band.size() < kLeastStretches) return {};
  BareWall wall;
  for (int look = 0; look < kLearnt; ++look) {
    wall.plane_[look] = plane_through(band, look);
    std::vector<double> off;
    for (const Stretch& each : band) {
      const auto& [middle, across, down] = wall.plane_[look];
      off.push_back(std::abs(each.look[look] - middle - across * each.x - down * each.y));
    }
    const double deviation = std::max(look == 0 ? kLeastOfValue : kLeast, 1.4826 * median(off));
    if (deviation > kTooUneven) return {};
    wall.variance_[look] = deviation * deviation;
  }
  return wall;
}

double BareWall::misfit(const Evidence& evidence, int cell, int patch) const {
  const Look& seen = evidence.look(cell, patch);
  double sum = 0;
  for (int look = 0; look < kLearnt; ++look) {
    const auto& [middle, across, down] = plane_[look];
    const double difference = seen[look] - middle - across * evidence.x[cell] - down * evidence.y[cell];
    sum += 2.5 * std::log(1 + difference * difference / (4 * variance_[look]));
  }
  return std::min(sum, Light::kCap);
}

}  // namespace farflung::wall
