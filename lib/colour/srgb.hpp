// Between the pixels of a screen, the light they stand for, and CIELAB.
#pragma once

#include <cstdint>

#include "colour/lab.hpp"

namespace farflung::colour {

/// Light in the sRGB primaries, proportional to energy; 0..1 within the gamut, beyond it outside.
struct Light {
  double r = 0, g = 0, b = 0;
  friend bool operator==(const Light&, const Light&) = default;
};

/// sRGB pixels of 8 bits.
struct Srgb {
  std::uint8_t r = 0, g = 0, b = 0;
  friend bool operator==(const Srgb&, const Srgb&) = default;
};

/// CIE 1931 XYZ relative to white: Y is 1 for the white of the screen.
struct Xyz {
  double X = 0, Y = 0, Z = 0;
};

/// The white that sRGB and our CIELAB share, D65 (IEC 61966-2-1:1999).
constexpr Xyz kD65 = {0.95047, 1.0, 1.08883};

/// One channel, by the curve of IEC 61966-2-1; odd about 0, so that light beyond the gamut survives both ways.
/// `decoded` gives light from an encoded value, `encoded` an encoded value from light, both 0..1 within the gamut.
double decoded(double encoded);
double encoded(double light);

/// The light of one 8-bit channel, from a table.
double decoded(std::uint8_t value);

/// Channel by channel, by the table above.
Light light_from_srgb(Srgb pixel);

/// Nearest pixel; light beyond the gamut is cut off channel by channel.
Srgb srgb_from_light(Light light);

/// By the matrix of the sRGB primaries and its inverse; nothing is cut off.
Xyz xyz_from_light(Light light);
Light light_from_xyz(Xyz xyz);

/// CIE 15:2004, with the exact fractions 216/24389 and 24389/27; relative to `white`.
Lab lab_from_xyz(Xyz xyz, Xyz white = kD65);
Xyz xyz_from_lab(Lab lab, Xyz white = kD65);

/// Equal channels give a = b = 0 to 1e-6.
Lab lab_from_light(Light light);
Light light_from_lab(Lab lab);

/// By way of light; a colour that the screen has not becomes the pixel nearest channel by channel.
Lab lab_from_srgb(Srgb pixel);
Srgb srgb_from_lab(Lab lab);

}  // namespace farflung::colour
