// How much a print looks like itself after a step.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "photo/picture.hpp"

namespace farflung::extract {

/// CIELAB at `side` pixels along the longer side, without changes slower than `slow` of it: light that falls off,
/// cloudy dye.
struct Detail {
  std::vector<cv::Mat> channels;  ///< L*, a*, b*: CV_32F
  double shrink = 1;              ///< pixels of these over pixels of the swatch
};
/// The swatch's rim is left out, see middle_of; a swatch smaller than `side` is not enlarged.
Detail detail_of(const photo::Picture& swatch, int side, double slow);

/// The mean dE (1976) of the detail from its surroundings.
double contrast(const std::vector<cv::Mat>& channels);

/// 1 in the middle; the step (x, y) lies at column cols / 2 + x, row rows / 2 + y. Steps reach this share of the
/// swatch, and each is corrected for how much of the swatch then overlaps itself: believable to half of it; farther out
/// only an exact repeat stands out. The channels count together. CV_32F.
cv::Mat autocorrelation(const std::vector<cv::Mat>& channels, double reach = 0.5);

/// Its mean over all directions by whole pixels of distance, gently smoothed; within `sector` degrees of `degrees`
/// alone, where told.
std::vector<double> by_distance(const cv::Mat& correlation);
std::vector<double> by_distance(const cv::Mat& correlation, double degrees, double sector);

}  // namespace farflung::extract
