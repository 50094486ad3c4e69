#include "photo/blurred_edge.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace farflung::photo {
namespace {

constexpr double kStep = 0.5;                              ///< pixels between samples across the side
constexpr double kInward = 2;                              ///< pixels within the side that are to be explained
constexpr double kOutward = 3;                             ///< and beyond it
constexpr double kOfStep = 0.15;                           ///< of the step from one light to the other, for noise
constexpr double kOfBare = 0.03;                           ///< of the surface's light, for its grain
constexpr double kDarkest = 0.55, kBrightest = 1.15;       ///< of the surface's light: what shade leaves of it
constexpr std::array<double, 4> kBlurs{0.5, 1, 1.6, 2.4};  ///< pixels, standard deviations
constexpr int kSamples = static_cast<int>((kInward + kOutward) / kStep) + 1;

double out_of(int sample) { return sample * kStep - kInward; }

/// A line across the side.
struct Across {
  cv::Vec3d cloth, bare;
  std::array<cv::Vec3d, kSamples> seen;
};

Across across(const Lit& lit, const Side& side, double along) {
  Across line;
  line.cloth = mean_light(lit, side, along, -kInward - 1.5, 2);
  const cv::Vec3d bare = bare_at(lit, side.place(along, kOutward)), beyond = mean_light(lit, side, along, kOutward, 2);
  line.bare = bare * std::clamp(beyond.dot(bare) / std::max(1e-9, bare.dot(bare)), kDarkest, kBrightest);
  for (int i = 0; i < kSamples; ++i) line.seen[i] = light_at(lit, side.place(along, out_of(i)));
  return line;
}

/// Share of the cloth's light in each sample.
std::array<double, kSamples> mixed_by(double blur) {
  std::array<double, kSamples> shares{};
  for (int i = 0; i < kSamples; ++i) shares[i] = 0.5 * std::erfc(out_of(i) / (blur * std::sqrt(2.0)));
  return shares;
}

/// Each sample counts up to 1 (Geman and McClure's measure).
double misfit(const Across& line, const std::array<double, kSamples>& shares) {
  const cv::Vec3d step = line.cloth - line.bare;
  const double usual = kOfStep * kOfStep * step.dot(step) + kOfBare * kOfBare * line.bare.dot(line.bare) + 1e-5;
  double sum = 0;
  for (int i = 0; i < kSamples; ++i) {
    const cv::Vec3d off = line.seen[i] - (line.bare + shares[i] * step);
    const double squared = off.dot(off) / usual;
    sum += squared / (1 + squared);
  }
  return sum / kSamples;
}

}  // namespace

double misfit_of_edge(const Quad& quad, int index, const Lit& lit) {
  const Side side = side_of(quad, index);
  const int count = std::clamp(static_cast<int>(side.length / 3), 24, 120);
  std::vector<Across> lines;
  lines.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) lines.push_back(across(lit, side, 0.04 + 0.92 * (i + 0.5) / count));
  double least = 1;
  for (const double blur : kBlurs) {
    const auto shares = mixed_by(blur);
    double sum = 0;
    for (const Across& line : lines) sum += misfit(line, shares);
    least = std::min(least, sum / count);
  }
  return least;
}

}  // namespace farflung::photo
