// How far it is from one motif to the next.
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

namespace farflung::extract {

/// The first hump of a profile by distance (by_distance) after the dip beside the middle that rises out of its dip by
/// `share` of what any hump does: where it is, to a fraction of a pixel.
struct Hump {
  double at = 0, height = 0, rise = 0;
};
std::optional<Hump> first_hump(const std::vector<double>& profile, double share);

/// Two steps, neither in the other's line, by which a print repeats.
struct Lattice {
  cv::Point2d first, second;
  double strength = 0;  ///< mean autocorrelation after its steps: 1 for a perfect repeat
  double area() const { return std::abs(first.cross(second)); }
};

/// The lattice of repeats in an autocorrelation whose cell is about `side` squared, between half and twice that; the
/// shortest steps of it, fitted to every repeat in sight. None where nothing of that size repeats in rows.
std::optional<Lattice> lattice_near(const cv::Mat& correlation, double side);

}  // namespace farflung::extract
