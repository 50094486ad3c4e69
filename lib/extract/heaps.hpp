// A swatch's pixels as heaps of like ones. Internal to extract.
#pragma once

#include <cstddef>
#include <vector>

#include <opencv2/core.hpp>

#include "colour/lab.hpp"
#include "colour/srgb.hpp"

namespace farflung::extract {

/// Pixels alike, as one point.
struct Heap {
  cv::Vec3d lab;     ///< CIELAB
  cv::Vec3d light;   ///< the same as linear light, which blur mixes
  double flat = 0;   ///< pixels, those on edges between motifs counting little
  double count = 0;  ///< pixels
};

inline colour::Lab lab_of(const cv::Vec3d& lab) { return {lab[0], lab[1], lab[2]}; }

/// The linear light of a colour in CIELAB.
inline cv::Vec3d light_of(const cv::Vec3d& lab) {
  const colour::Light light = colour::light_from_lab(lab_of(lab));
  return {light.r, light.g, light.b};
}

inline double squared(const cv::Vec3d& a, const cv::Vec3d& b) {
  const cv::Vec3d d = a - b;
  return d.dot(d);
}

/// Which of the centres, at least one, lies nearest in CIELAB.
inline std::size_t nearest(const std::vector<cv::Vec3d>& centres, const cv::Vec3d& lab) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < centres.size(); ++i) {
    if (squared(centres[i], lab) < squared(centres[best], lab)) best = i;
  }
  return best;
}

}  // namespace farflung::extract
