// From what a camera made of a scene's light back to its colours in daylight.
#pragma once

#include <array>
#include <vector>

#include "colour/srgb.hpp"
#include "photo/picture.hpp"

namespace farflung::photo {

/// What a camera and the light of a room did to colours, undone in this order: the camera's curve, the fall of light
/// across the picture, the colour of the light, the camera's own filters and its liking for vivid colours.
struct Balance {
  /// The curve: first v + contrast sin(2 pi v) of the encoded value v (above 0 where the camera steepens the middle),
  /// which decodes to d;
  double contrast = 0;
  double gamma = 1;              ///< then d becomes d^gamma (1 + shoulder d) / (1 + shoulder) - flare
  double shoulder = 0;           ///< above -0.6; above 0 where the camera softens highlights
  double flare = 0;              ///< light strayed into the darkest places
  std::array<double, 5> fall{};  ///< log of the light over that in the middle, by x, y, x^2, xy, y^2; x, y in [-1, 1]
  /// Makes white of the light: gains in Bradford's cone space (Lam 1985; ICC.1:2022, annex E), where a lamp's colour is
  /// most nearly undone by gains alone.
  std::array<double, 3> gain = {1, 1, 1};
  /// To linear sRGB, row by row, from r, g, b, so made neutral, and their root terms sqrt(rg) - (r + g)/2,
  /// sqrt(gb) - (g + b)/2, sqrt(br) - (b + r)/2 (root-polynomial correction, Finlayson, Mackiewicz and Hurlbert 2015,
  /// doi:10.1109/TIP.2015.2405336: the same at every exposure). The first three of a row sum to 1: grey stays grey.
  std::array<double, 18> matrix = {1, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0};

  /// `seen` is encoded, 0..1 a channel; (x, y) its place in the picture, -1..1 both ways.
  colour::Light corrected(const std::array<double, 3>& seen, double x, double y) const;

  friend bool operator==(const Balance&, const Balance&) = default;
};

/// A colour seen in a picture whose true colour is known.
struct KnownColour {
  std::array<double, 3> seen{};  ///< encoded, 0..1
  double x = 0, y = 0;           ///< -1..1 across the picture
  colour::Lab truth;
};

/// The balance that best explains the known colours (least squares by Levenberg's and Marquardt's method on L*, a*, b*,
/// chroma weighed as CIE94 does), held near an ordinary camera where they say little: one white gives gains only, a
/// chart of 24 gives curve, flare, fall and matrix. `fall` is kept where it is given and one colour says nothing of it.
Balance fitted_balance(const std::vector<KnownColour>& known, const Balance& start = {});

/// A flat swatch in daylight. `corners` is where the swatch lies in the photograph of columns x rows.
Picture balanced(const Picture& swatch, const Corners& corners, double columns, double rows, const Balance& balance);

}  // namespace farflung::photo
