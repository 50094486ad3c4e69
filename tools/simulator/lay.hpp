// Laying a flat picture of cloth into a photograph, its shadow first.
#pragma once

#include <opencv2/core.hpp>

#include "simulator/camera.hpp"

namespace farflung::simulator {

struct LaidCloth {
  cv::Mat light;                   ///< CV_32FC3 linear light
  cv::Mat shape;                   ///< CV_32F 0..1: where there is cloth
  cv::Matx33d photo_from_picture;  ///< pixels of the photograph from pixels of `light`
  double stands_off = 0;           ///< pixels of shadow that it casts; 0: none
};

void lay(cv::Mat& photograph, const LaidCloth& cloth, const Light& light);

/// Pixels to the inch at a place on the table, along x and y averaged.
double scale_at(const cv::Matx33d& photo_from_table, cv::Point2d place);

}  // namespace farflung::simulator
