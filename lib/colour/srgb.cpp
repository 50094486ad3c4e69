#include "colour/srgb.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace farflung::colour {
namespace {

using Row = std::array<double, 3>;

// From the primaries and white of IEC 61966-2-1, worked out to seven places; the second is the inverse of the first.
constexpr std::array<Row, 3> kXyzFromLight = {{{0.4124564, 0.3575761, 0.1804375},  //
                                               {0.2126729, 0.7151522, 0.0721750},
                                               {0.0193339, 0.1191920, 0.9503041}}};

constexpr std::array<Row, 3> inverse(const std::array<Row, 3>& m) {
  const double a = m[1][1] * m[2][2] - m[1][2] * m[2][1];
  const double b = m[1][2] * m[2][0] - m[1][0] * m[2][2];
  const double c = m[1][0] * m[2][1] - m[1][1] * m[2][0];
  const double det = m[0][0] * a + m[0][1] * b + m[0][2] * c;
  return {{{a / det, (m[0][2] * m[2][1] - m[0][1] * m[2][2]) / det, (m[0][1] * m[1][2] - m[0][2] * m[1][1]) / det},
           {b / det, (m[0][0] * m[2][2] - m[0][2] * m[2][0]) / det, (m[0][2] * m[1][0] - m[0][0] * m[1][2]) / det},
           {c / det, (m[0][1] * m[2][0] - m[0][0] * m[2][1]) / det, (m[0][0] * m[1][1] - m[0][1] * m[1][0]) / det}}};
}

constexpr std::array<Row, 3> kLightFromXyz = inverse(kXyzFromLight);

constexpr double dot(const Row& row, double x, double y, double z) { return row[0] * x + row[1] * y + row[2] * z; }

constexpr double kEpsilon = 216.0 / 24389;
constexpr double kKappa = 24389.0 / 27;

double compressed(double t) { return t > kEpsilon ? std::cbrt(t) : (kKappa * t + 16) / 116; }

double expanded(double f) {
  const double cube = f * f * f;
  return cube > kEpsilon ? cube : (116 * f - 16) / kKappa;
}

std::uint8_t quantised(double light) {
  return static_cast<std::uint8_t>(std::lround(255 * encoded(std::clamp(light, 0.0, 1.0))));
}

}  // namespace

double decoded(double encoded) {
  const double x = std::abs(encoded);
  return std::copysign(x <= 0.04045 ? x / 12.92 : std::pow((x + 0.055) / 1.055, 2.4), encoded);
}

double encoded(double light) {
  const double x = std::abs(light);
  return std::copysign(x <= 0.0031308 ? 12.92 * x : 1.055 * std::pow(x, 1 / 2.4) - 0.055, light);
}

double decoded(std::uint8_t value) {
  static const auto table = [] {
    std::array<double, 256> t{};
    for (int i = 0; i < 256; ++i) t[i] = decoded(i / 255.0);
    return t;
  }();
  return table[value];
}

Light light_from_srgb(Srgb pixel) { return {decoded(pixel.r), decoded(pixel.g), decoded(pixel.b)}; }

Srgb srgb_from_light(Light light) { return {quantised(light.r), quantised(light.g), quantised(light.b)}; }

Xyz xyz_from_light(Light light) {
  const auto& m = kXyzFromLight;
  return {dot(m[0], light.r, light.g, light.b), dot(m[1], light.r, light.g, light.b),
          dot(m[2], light.r, light.g, light.b)};
}

Light light_from_xyz(Xyz xyz) {
  const auto& m = kLightFromXyz;
  return {dot(m[0], xyz.X, xyz.Y, xyz.Z), dot(m[1], xyz.X, xyz.Y, xyz.Z), dot(m[2], xyz.X, xyz.Y, xyz.Z)};
}

Lab lab_from_xyz(Xyz xyz, Xyz white) {
  const double fx = compressed(xyz.X / white.X), fy = compressed(xyz.Y / white.Y), fz = compressed(xyz.Z / white.Z);
  return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

Xyz xyz_from_lab(Lab lab, Xyz white) {
  const double fy = (lab.L + 16) / 116;
  return {white.X * expanded(fy + lab.a / 500), white.Y * expanded(fy), white.Z * expanded(fy - lab.b / 200)};
}

Lab lab_from_light(Light light) { return lab_from_xyz(xyz_from_light(light)); }
Light light_from_lab(Lab lab) { return light_from_xyz(xyz_from_lab(lab)); }
Lab lab_from_srgb(Srgb pixel) { return lab_from_light(light_from_srgb(pixel)); }
Srgb srgb_from_lab(Lab lab) { return srgb_from_light(light_from_lab(lab)); }

}  // namespace farflung::colour
