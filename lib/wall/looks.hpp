// What can be measured of a piece of cloth whatever light falls on it, and how each print measures.
#pragma once

#include <array>
#include <vector>

#include <opencv2/core.hpp>

#include "photo/picture.hpp"
#include "print/print.hpp"

namespace farflung::wall {

/// Of a piece of cloth: the logarithm of its mean light in red, green and blue; then how much its pixels vary: the
/// standard deviation of the logarithm of their light, of red over green and of blue over green.
constexpr int kColours = 3, kLooks = 6;
using Look = std::array<double, kLooks>;

/// What light is measured down to: below it a camera sees only itself.
constexpr double kDarkest = 0.004;

/// `light` is CV_32FC3 linear RGB, `mask` CV_8U.
Look look_of(const cv::Mat& light, const cv::Mat& mask);

/// How pieces of one print measure: their mean and variance from one crop to the next.
struct PrintLook {
  Look mean{}, variance{};
  bool texture = false;  ///< the last three are known
};

/// From a swatch, by cutting many pieces `inches` square out of it, seen at `pixels_per_inch`; without a swatch from
/// the print's features.
PrintLook print_look(const print::Print& print, const photo::Picture& swatch, double inches, double pixels_per_inch);

/// CV_32FC3 linear light from CV_8UC3 sRGB.
cv::Mat light_of(const cv::Mat& srgb);

}  // namespace farflung::wall
