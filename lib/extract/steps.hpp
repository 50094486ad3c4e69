// How far it is from one motif to the next.
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

namespace farflung::extract {

/// Where a profile by distance (by_distance) rises out of a dip and falls again.
struct Hump {
  double at = 0, height = 0;  ///< at a fraction of a pixel
  double rise = 0;            ///< out of the dip before it
};
/// In order of distance; each rise is from the lowest value since the hump before.
std::vector<Hump> humps_of(const std::vector<double>& profile);

/// The first above 0 that rises by `share` of what any of those does; none where all is flat.
std::optional<Hump> first_hump(const std::vector<Hump>& humps, double share);

/// Two steps, neither in the other's line, by which a print repeats.
struct Lattice {
  cv::Point2d first, second;
  double strength = 0;  ///< mean autocorrelation after its steps: 1 for a perfect repeat
  double area() const { return std::abs(first.cross(second)); }
};

/// The lattice of repeats in an autocorrelation whose cell is about `side` squared, between half and twice that; the
/// shortest steps of it, fitted to every repeat in sight. None where nothing of that size repeats in rows.
std::optional<Lattice> lattice_near(const cv::Mat& correlation, double side);

/// The shortest two steps after which the whole swatch looks like itself, by an autocorrelation of `like` at least.
/// Where it repeats along one line alone, the second step lies across it and leads out of the swatch; none where it
/// does not repeat in sight.
std::optional<Lattice> repeats_of(const cv::Mat& correlation, double like);

}  // namespace farflung::extract
