// One block as it is pieced: its patches cut from cloth, its seams.
#pragma once

#include <array>
#include <vector>

#include <opencv2/core.hpp>

#include "quilt/quilt.hpp"
#include "simulator/fabric.hpp"

namespace farflung::simulator {

/// Cloth rendered once for many patches: by print, in its four quarter turns.
struct Bolts {
  double pixels_per_inch = 0;
  std::vector<std::array<cv::Mat, 4>> light;  ///< CV_32FC3 linear light; wraps round
};
Bolts bolts_of(const std::vector<Fabric>& fabrics, double pixels_per_inch);

struct PieceCut {
  Polygon outline;  ///< in the picture's own inches
  int print = 0;
  int turn = 0;  ///< quarter turns clockwise of the cloth under it
  Seed seed;     ///< which piece of the cloth
};

struct Pieced {
  cv::Mat light;  ///< CV_32FC3 linear light
  cv::Mat shape;  ///< CV_32F 0..1
};

/// Pieces laid on a picture of `width` x `height` inches; `seams` 0..1 says how deep the joins between them are.
Pieced pieced(const std::vector<PieceCut>& pieces, double width, double height, const Bolts& bolts, double seams);

}  // namespace farflung::simulator
