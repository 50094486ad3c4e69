// The plain surface that cloth lies on: its colour, as the light on it changes across the picture. Internal to photo.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "photo/lab_table.hpp"

namespace farflung::photo {

/// A row of pixels.
struct LabRow {
  explicit LabRow(int columns) : L(columns), a(columns), b(columns) {}
  void set(int column, const cv::Vec3f& lab) { L[column] = lab[0], a[column] = lab[1], b[column] = lab[2]; }

  std::vector<float> L, a, b;
};

/// A colour as less light makes it darker: by a factor s all of (L* + 16, a*, b*) are multiplied by the cube root of s.
inline cv::Vec3f from_black(const cv::Vec3f& lab) { return {lab[0] + 16, lab[1], lab[2]}; }
/// The cube root of how much light makes `bare` look most nearly like `seen`, both from black.
inline float root_of_light(const cv::Vec3f& seen, const cv::Vec3f& bare) { return seen.dot(bare) / bare.dot(bare); }

/// What the rim of a picture says of the surface behind the swatches. All matrices are of the size that was fitted.
struct Surface {
  double rim_share = 0;   ///< of the rim's pixels, how many look like one surface under one light
  double noise = 0;       ///< standard deviation of the surface's own pixels along their widest axis, dE (1976)
  cv::Mat expected;       ///< CV_32FC3, CIELAB of the bare surface at each pixel, by way of its light
  cv::Matx33f whitening;  ///< maps a difference in CIELAB to standard deviations of the surface's own pixels (grain)

  /// How unlike the surface a colour is, in standard deviations; where `shaded`, also unlike the surface in the shade
  /// of something: less light by up to a factor of 4 does not count.
  float unlike(const cv::Vec3f& lab, const cv::Vec3f& bare, bool shaded) const;

  /// The squares of both, of a whole row.
  void squared_unlike(const LabRow& seen, const LabRow& bare, float* __restrict plain, float* __restrict shaded) const;
};

/// From how many standard deviations on a pixel is taken for something else than the surface.
constexpr float kUnlike = 4.5F;

/// Fits a surface to the rim: CIELAB as a polynomial of second degree in x and y, refitted to all that lies near it
/// (iterated trimmed least squares), then bent locally to the surface's own pixels. First one plain colour is tried,
/// then a grained one (wood). `lab` is CV_32FC3, smoothed a little against noise.
Surface fit_surface(const cv::Mat& lab);

}  // namespace farflung::photo
