// What strays into a photograph at its rim: a hand, a pair of scissors.
#pragma once

#include <opencv2/core.hpp>

#include "simulator/canvas.hpp"

namespace farflung::simulator {

struct Stray {
  enum class Kind { hand, scissors };

  Kind kind = Kind::hand;
  int side = 2;         ///< of the frame that it comes in from: 0 top, 1 right, 2 bottom, 3 left
  double place = 0.7;   ///< 0..1 along that side, clockwise
  double reach = 0.1;   ///< how far its tip comes into the frame, as a share of its shorter side
  double length = 0.3;  ///< of a hand from the wrist, or of scissors, as a share of the frame's shorter side
  double lean = 10;     ///< degrees clockwise from straight in
  Ink skin = 0xc99a7c;  ///< or of the scissors' handles
};

/// Draws it over a picture of linear light, with a soft shadow `shadow_depth` deep.
void lay_stray(cv::Mat& picture, const Stray& stray, double shadow_depth);

}  // namespace farflung::simulator
