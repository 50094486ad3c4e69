// What a camera and the light did, from what is known of some colours in the picture.
#pragma once

#include <array>
#include <vector>

#include "colour/lab.hpp"
#include "photo/backdrop.hpp"
#include "photo/balance.hpp"
#include "photo/values.hpp"

namespace farflung::photo {

/// A colour seen in a picture whose true colour is known.
struct KnownColour {
  std::array<double, 3> seen{};  ///< encoded, 0..1
  double x = 0, y = 0;           ///< -1..1 across the picture
  colour::Lab truth;
  std::array<double, 3> good = {1.4, 1.4, 1.4};  ///< what its L*, a* and b* are good to
  std::array<double, 2> beside = {x, y};         ///< the nearest place, -1..1, where a backdrop is seen
  bool perhaps = false;                          ///< it may be of another hue altogether: far off it hardly counts
};

/// The bare paper just beside something that is printed: it lies in the same light, but for `uneven`.
struct PaperBeside {
  std::array<double, 3> seen{};  ///< encoded mean light; zeros where none is seen
  double uneven = 0;             ///< between its darkest and its brightest side, encoded
};

/// A grey of black lines on white paper: how dark it is, but for how far ink runs beyond the lines' edges.
struct ScreenSeen {
  std::array<double, 3> seen{};  ///< encoded mean light, 0..1
  double x = 0, y = 0;           ///< -1..1 across the picture
  double black = 0;              ///< share that is line as drawn; 1: all ink
  double pitch = 0;              ///< inches from line to line
  double contrast = 0;           ///< standard deviation of the encoded pixels: above 0.1 or so lines are seen apart
  /// Of r, g, b: lines that are seen apart pass through the camera's curve one by one. Empty: all pixels are as `seen`.
  std::array<Values, 3> values{};
  double period = 1;  ///< pixels from line to line
  PaperBeside paper;
};

/// All that a picture tells of its light.
struct Evidence {
  std::vector<KnownColour> known;
  std::vector<ScreenSeen> screens;  ///< on paper that is kPaperWhite
  Backdrop backdrop;                ///< of a surface that is of one colour; empty where there is none
  bool usual = false;  ///< what is known is so usually, not surely: then it is weighed against what cameras usually do
};

/// CIELAB (D65) of the white of office paper under lamps and of printed black: what is in most homes is within 2 of it,
/// the black within 4.
constexpr colour::Lab kPaperWhite = {94.3, 0.1, -0.8};
constexpr colour::Lab kPrintedBlack = {21.9, 0, 0};

/// What people point at as white: paper, a wall, a plate. A little darker than the best paper.
constexpr colour::Lab kSomethingWhite = {92, 0.3, -1.2};

/// The balance that best explains the evidence (least squares by Levenberg's and Marquardt's method on L*, a*, b*,
/// chroma weighed as CIE94 does), held near an ordinary camera and room where it says little; so is the light's
/// colour, most of which a camera has taken out, where the evidence is only `usual`. One white gives gains only (paper
/// is allowed to be as blue as brighteners make it in daylight), screens give the curve, a backdrop the light's fall, a
/// chart of 24 curve, fall and matrix. Without any known colour the light's colour stays as it is and only the
/// backdrop's fall is taken out.
Balance fitted_balance(const Evidence& evidence);

}  // namespace farflung::photo
