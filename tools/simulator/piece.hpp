// One cut piece as it lies: its pixels and its outline.
#pragma once

#include <opencv2/core.hpp>

#include "simulator/scene.hpp"

namespace farflung::simulator {

struct Piece {
  cv::Mat light;           ///< CV_32FC3 linear light in daylight, as it lies: ripples, creases, edges shaded
  cv::Mat shape;           ///< CV_32F 0..1: where there is cloth
  colour::Lab lab;         ///< of its print alone, without the shading
  cv::Matx33d from_cloth;  ///< its pixels from inches, (0, 0) the cloth's top left corner
};

Piece piece_of(const Placed& cloth, double pixels_per_inch, Seed seed);

}  // namespace farflung::simulator
