// What light a room is lit by, and how it leans the hues of what is not white.
#pragma once

#include <array>

namespace farflung::photo {

/// A lamp's or daylight's colour as telephones meet it: millions over kelvin, 133 (7,500 K) to 370 (2,700 K).
constexpr double kCoolest = 133, kWarmest = 370;

/// Linear sRGB in daylight (D65) from linear r, g, b that were seen under this light and then made neutral channel by
/// channel, as cameras do: row by row, rows sum to 1. Light changes colours as by gains in Bradford's cones
/// (ICC.1:2022, annex E), which gains of channels undo for greys alone.
std::array<double, 9> upright_hues(double mired);

/// The likeliest light, where a white is seen with so much log(red / blue): cameras take out most of a light's colour,
/// 60 to 97 in a hundred, so that the more of it is left, the farther the light was from daylight.
double likely_light(double log_red_over_blue);

/// How the light's colour that cameras leave of white varies over all those lights and cameras.
struct LightLeft {
  std::array<double, 2> mean{};       ///< of log(red / green) and log(blue / green)
  std::array<double, 3> whitening{};  ///< upper triangle, row by row, of what makes their scatter even

  /// How far off the usual a white is that is seen so, in standard deviations along two axes.
  std::array<double, 2> off(double log_red_over_green, double log_blue_over_green) const;
};
const LightLeft& light_left();

}  // namespace farflung::photo
