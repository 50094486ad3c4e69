// From what a camera made of a scene's light back to its colours in daylight.
#pragma once

#include <array>

#include "colour/srgb.hpp"
#include "photo/backdrop.hpp"
#include "photo/picture.hpp"

namespace farflung::photo {

/// A camera's curve, undone: light from an encoded value.
struct Curve {
  /// First v + contrast sin(2 pi v) of the encoded value v (above 0 where the camera steepens the middle), which
  /// decodes to d;
  double contrast = 0;
  /// then d^gamma (1 + shoulder d + knee d^8) / (1 + shoulder + knee) - flare.
  double gamma = 1;
  double shoulder = 0;  ///< above -0.6; above 0 where the camera softens all that is bright
  double knee = 0;      ///< not below 0; above 0 where it softens the brightest alone
  double flare = 0;     ///< light strayed into the darkest places
  /// Above the encoded value `full` a sensor is full: each step of a value stands for so much more light, `steep`.
  double full = 1, steep = 0;

  double light(double encoded) const;
  /// Light that a step of a value stands for there, over the step, more than where no sensor is full.
  double steepened(double encoded) const;
  friend bool operator==(const Curve&, const Curve&) = default;
};

/// What a camera and the light of a room did to colours, undone in this order: the camera's curve, the fall of light
/// across the picture, the colour that is left of the light, the lamp's and the camera's own leaning of hues.
struct Balance {
  Curve curve;
  std::array<double, 2> fall{};            ///< log of the light over that in the middle, by x and y in [-1, 1]
  LightField field;                        ///< times this
  std::array<double, 3> gain = {1, 1, 1};  ///< of r, g, b: makes white of the light
  /// To linear sRGB, row by row, from r, g, b, so made neutral, and their root terms sqrt(rg) - (r + g)/2,
  /// sqrt(gb) - (g + b)/2, sqrt(br) - (b + r)/2 (root-polynomial correction, Finlayson, Mackiewicz and Hurlbert 2015,
  /// doi:10.1109/TIP.2015.2405336: the same at every exposure). The first three of a row sum to 1: grey stays grey.
  std::array<double, 18> matrix = {1, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0};

  /// `seen` is encoded, 0..1 a channel; (x, y) its place in the picture, -1..1 both ways.
  colour::Light corrected(const std::array<double, 3>& seen, double x, double y) const;

  /// Light at a place over that in the middle.
  double light_at(double x, double y) const;

  /// To linear sRGB from straightened, evenly lit r, g, b.
  colour::Light mixed(double r, double g, double b) const;
};

/// A flat swatch in daylight. `corners` is where the swatch lies in the photograph of columns x rows.
Picture balanced(const Picture& swatch, const Corners& corners, double columns, double rows, const Balance& balance);

}  // namespace farflung::photo
