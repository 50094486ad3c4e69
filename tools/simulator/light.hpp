// Colour arithmetic of the simulator's own, so that what it calls true shares no code with what it judges.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "colour/lab.hpp"

namespace farflung::simulator {

/// IEC 61966-2-1: linear light 0..1 from an sRGB value 0..1, and back.
double linear_from_srgb(double value);
double srgb_from_linear(double value);

/// Lab of linear sRGB light; (1, 1, 1) is (100, 0, 0).
colour::Lab lab_of(const cv::Vec3d& linear_rgb);

/// Mean of a CV_32FC3 picture of linear RGB light, where `mask` (CV_8U, optional) is set.
cv::Vec3d mean_light(const cv::Mat& linear, const cv::Mat& mask = {});

/// What a camera balanced for D65 sees when the light is a black body (below 4,000 K) or daylight of this temperature:
/// linear sRGB light from linear sRGB light under D65, adapted in Bradford's cone space; green stays as bright.
/// Range 1,700..25,000 K. Sources: Kim et al. 2002 (US 7024034) for the Planckian locus, CIE 15:2004 for daylight.
cv::Matx33d cast_of(double kelvin);

/// CV_32FC3 linear light from CV_8UC3 sRGB; channel order is kept.
cv::Mat linear_picture(const cv::Mat& srgb);
/// CV_8UC3 bytes from CV_32FC3 light by a curve: knots[k] is the byte for most_light x (k / last)^2; straight between.
cv::Mat through_curve(const cv::Mat& linear, double most_light, const std::vector<float>& knots);
/// CV_8UC3 sRGB from CV_32FC3 linear light, clipped to 0..1; channel order is kept.
cv::Mat srgb_picture(const cv::Mat& linear);

}  // namespace farflung::simulator
