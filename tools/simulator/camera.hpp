// Where the camera stands, and what it does to light.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "base/rng.hpp"

namespace farflung::simulator {

struct Camera {
  cv::Size pixels = {1600, 1200};
  double slant = 0;      ///< degrees between its axis and straight down
  double azimuth = 90;   ///< degrees clockwise from along x: the side of the table it looks from
  double roll = 0;       ///< degrees clockwise
  double view = 52;      ///< degrees, corner to corner of what it frames
  double margin = 0.06;  ///< of the frame left free on each side; below 0 what it frames overfills it
  cv::Point2d shift;     ///< by which what it frames lies off the middle, as shares of the picture: cuts off a corner
};

struct Light {
  double kelvin = 6504;
  double fall_off = 0;          ///< 0..1: how much less light falls on the darkest place than on the brightest
  double fall_off_toward = 30;  ///< degrees clockwise from along x: where it is darkest
  double shadow_toward = 40;    ///< degrees clockwise from along x
  double shadow_depth = 0.45;   ///< 0..1
  double cast_depth = 0;        ///< 0..1: of the shadow that someone casts over part of the picture
  double cast_reach = 0.35;     ///< 0..1: how much of the picture's breadth it covers
  double cast_from = 200;       ///< degrees clockwise from along x: the side that it falls in from
  double cast_softness = 0.08;  ///< width of its edge, as a share of the picture's breadth
};

/// How light becomes a file.
struct Develop {
  double balance = 1;     ///< share of the light's colour that the camera takes out again
  double tint = 0;        ///< green taken out (above 0: toward magenta), as a share
  bool metered = false;   ///< the camera chose its exposure by what it saw; else the whitest white is 0.8 of full light
  double exposure = 0;    ///< EV above that
  double vignette = 0;    ///< share of light lost in the corners
  double blur = 0;        ///< standard deviation, pixels
  double noise = 0;       ///< standard deviation at full light, as a share of it; half of it from the sensor itself
  double tone = 0;        ///< 0 plain sRGB, clipped .. 1 a telephone's curve: soft highlights, steeper middle
  double vividness = 0;   ///< share by which colours are pushed away from grey
  double sharpening = 0;  ///< share of an unsharp mask
  int jpeg_quality = 90;
};

/// Pixels (centre of the first one is 0, 0) from inches on the table, such that all of `frame` is seen.
cv::Matx33d photo_from_table(const Camera& camera, const std::vector<cv::Point2d>& frame);

cv::Point2d projected(const cv::Matx33d& target_from_source, cv::Point2d point);

/// The light that reaches each pixel: CV_32F, 1 where brightest.
cv::Mat light_over(const Light& light, cv::Size pixels);

/// What light and camera make of the scene's colours before the curve.
struct Exposure {
  cv::Mat lit;         ///< CV_32F: light that falls on each pixel, what the lens loses taken off
  cv::Matx33d colour;  ///< sensor light from linear RGB light of the scene in daylight, where `lit` is 1
};

Exposure exposed(const cv::Mat& scene, const cv::Mat& lit, const Light& light, const Develop& develop);

/// CV_8UC3 sRGB from CV_32FC3 linear light of the scene in daylight, through lens, sensor and curve.
cv::Mat developed(const cv::Mat& scene, const Exposure& exposure, const Develop& develop, Seed seed);

/// Sensor light from a developed value 0..1: undoes the curve; what is clipped stays at the least light that clips.
double sensor_light(double developed, double tone);

}  // namespace farflung::simulator
