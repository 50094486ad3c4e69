// From a rough outline of a piece of cloth to one good to a fraction of a pixel. Internal to photo.
#pragma once

#include <array>

#include <opencv2/core.hpp>

namespace farflung::photo {

using Quad = std::array<cv::Point2d, 4>;  ///< clockwise from the top left; pixel centres are whole numbers

/// A finished outline and how well the picture bears it out.
struct Outline {
  Quad quad{};
  double support = 0;  ///< 0..1, the least of the four sides: how much of it lies on an edge of the cloth
  double depth = 0;    ///< pixels: how far inward the cloth's cut edge wanders (pinking, fraying)
};

/// Moves each side of `rough` onto the outermost edge of the cloth that runs all along it. Sides are searched within
/// `reach` pixels. `lab` and `surface` are CV_32FC3 CIELAB: the picture, and the bare surface as it would look there
/// (any size; it is stretched over the picture). A pinked side runs along the tips.
Outline refined(const Quad& rough, const cv::Mat& lab, const cv::Mat& surface, double noise, double reach);

double area(const Quad& quad);
bool convex(const Quad& quad);

}  // namespace farflung::photo
