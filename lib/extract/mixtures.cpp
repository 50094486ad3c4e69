#include "extract/mixtures.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace farflung::extract {
namespace {

constexpr double kSeldomFlat = 0.2;  ///< of its pixels: an ink is seen flat oftener than that
constexpr double kBetween = 8;       ///< dE00 from the straight line between two lights, at most
constexpr double kEnd = 0.06;        ///< of that line: nearer an end it is that ink
constexpr double kOddPair = 1e-5;    ///< of a pair's distance, squared: the nearer pair mixes, where two would do

std::vector<cv::Vec3d> lights_of(const std::vector<cv::Vec3d>& centres) {
  std::vector<cv::Vec3d> lights;
  lights.reserve(centres.size());
  for (const cv::Vec3d& centre : centres) lights.push_back(light_of(centre));
  return lights;
}

/// How far along the line from `a` to `b` the light comes nearest to it.
double part_of_second(const cv::Vec3d& light, const cv::Vec3d& a, const cv::Vec3d& b) {
  const cv::Vec3d line = b - a;
  return std::clamp((light - a).dot(line) / std::max(1e-12, line.dot(line)), 0.0, 1.0);
}

bool lies_between(std::size_t centre, const std::vector<cv::Vec3d>& centres, const std::vector<cv::Vec3d>& lights) {
  const colour::Lab lab = lab_of(centres[centre]);
  for (std::size_t i = 0; i < lights.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (i == centre || j == centre) continue;
      const double part = part_of_second(lights[centre], lights[i], lights[j]);
      if (part < kEnd || part > 1 - kEnd) continue;
      const cv::Vec3d mixed = lights[i] + part * (lights[j] - lights[i]);
      if (colour::delta_e_2000(colour::lab_from_light({mixed[0], mixed[1], mixed[2]}), lab) < kBetween) return true;
    }
  }
  return false;
}

/// The mixture that is seen flat least.
std::optional<std::size_t> mixture_among(const std::vector<Heap>& heaps, const std::vector<cv::Vec3d>& centres) {
  std::vector<double> flat(centres.size()), count(centres.size());
  for (const Heap& heap : heaps) {
    const std::size_t i = nearest(centres, heap.lab);
    flat[i] += heap.flat, count[i] += heap.count;
  }
  const std::vector<cv::Vec3d> lights = lights_of(centres);
  std::optional<std::size_t> found;
  double least = kSeldomFlat;
  for (std::size_t i = 0; i < centres.size(); ++i) {
    if (count[i] <= 0 || flat[i] / count[i] >= least || !lies_between(i, centres, lights)) continue;
    least = flat[i] / count[i], found = i;
  }
  return found;
}

}  // namespace

void drop_mixtures(const std::vector<Heap>& heaps, std::vector<cv::Vec3d>& centres) {
  while (centres.size() > 2) {
    const auto mixture = mixture_among(heaps, centres);
    if (!mixture) return;
    centres.erase(centres.begin() + static_cast<std::ptrdiff_t>(*mixture));
  }
}

std::vector<double> shares_of(const std::vector<Heap>& heaps, const std::vector<cv::Vec3d>& centres) {
  const std::vector<cv::Vec3d> lights = lights_of(centres);
  std::vector<double> shares(centres.size());
  double all = 0;
  for (const Heap& heap : heaps) {
    std::size_t first = nearest(centres, heap.lab), second = first;
    shares[first] += heap.flat;
    double part = 0, least = 1e18;
    for (std::size_t i = 0; i < lights.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const double along = part_of_second(heap.light, lights[i], lights[j]);
        const double off =
            squared(lights[i] + along * (lights[j] - lights[i]), heap.light) + kOddPair * squared(lights[i], lights[j]);
        if (off < least) least = off, first = i, second = j, part = along;
      }
    }
    shares[first] += (1 - part) * (heap.count - heap.flat);
    shares[second] += part * (heap.count - heap.flat);
    all += heap.count;
  }
  for (double& share : shares) share = std::min(1.0, share / all);
  return shares;
}

}  // namespace farflung::extract
