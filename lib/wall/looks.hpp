// What can be measured of a piece of cloth whatever light falls on it, and how each print measures.
#pragma once

#include <array>
#include <vector>

#include <opencv2/core.hpp>

#include "photo/picture.hpp"
#include "print/print.hpp"

namespace farflung::wall {

/// Of a piece of cloth: of its mean light the value (the mean of the logarithms of red, green and blue), red over green
/// and blue over green, since a shade changes the value alone; then how much its pixels vary: the
/// standard deviation of the logarithm of their light, of red over green and of blue over green; then how they do, as
/// roots with a sign: the third moment of the logarithm of light (a few light spots, or a few dark ones), and how red
/// over green and blue over green go with it.
constexpr int kColours = 3, kSpreads = 3, kLooks = 9;
/// The colours first, then the spreads, then the signed roots of third moments.
using Look = std::array<double, kLooks>;

/// Stray light that is added before logarithms are taken: below it a camera sees mostly its own lens.
constexpr double kDarkest = 0.01;

/// Walls and swatches are softened alike before they are measured, by this standard deviation in pixels of the wall
/// laid flat: what a lens, a slant or a telephone's sharpening does to the finest lines must tell no print from
/// another.
constexpr double kSoftened = 0.9;
void soften(cv::Mat& light, double pixels = 1);  ///< `pixels`: of `light` to one of the flat wall

/// `light` is CV_32FC3 linear RGB, `mask` CV_8U.
Look look_of(const cv::Mat& light, const cv::Mat& mask);

/// How pieces of one print measure: their mean and variance from one crop to the next.
struct PrintLook {
  Look mean{}, variance{};
  bool texture = false;  ///< all but the colours are known
};

/// From a swatch, by cutting many pieces `inches` square out of it, seen at `pixels_per_inch`; without a swatch from
/// the print's features.
PrintLook print_look(const print::Print& print, const photo::Picture& swatch, double inches, double pixels_per_inch);

/// CV_32FC3 linear light from CV_8UC3 sRGB.
cv::Mat light_of(const cv::Mat& srgb);

}  // namespace farflung::wall
