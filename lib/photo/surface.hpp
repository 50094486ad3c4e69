// The plain surface that cloth lies on: its colour, as the light on it changes across the picture. Internal to photo.
#pragma once

#include <opencv2/core.hpp>

namespace farflung::photo {

/// What the rim of a picture says of the surface behind the swatches. All matrices are of the picture it was fitted to.
struct Surface {
  double rim_share = 0;  ///< of the rim's pixels, how many look like one smoothly lit surface
  double noise = 0;      ///< robust standard deviation of the surface's own pixels from `expected`, dE (1976)
  cv::Mat expected;      ///< CV_32FC3, CIELAB of the bare surface at each pixel
  cv::Mat distance;      ///< CV_32F, dE (1976) of each pixel from `expected`
};

/// CV_8UC3 sRGB (R, G, B) to CV_32FC3 CIELAB.
cv::Mat lab_of(const cv::Mat& rgb);

/// Fits a surface to the commonest colour of the rim: CIELAB as a polynomial of second degree in x and y, refitted
/// to all that lies near it (iterated trimmed least squares), then bent locally to the surface's own pixels.
/// `lab` is CV_32FC3, smoothed a little against noise.
Surface fit_surface(const cv::Mat& lab);

}  // namespace farflung::photo
