#include "colour/lab.hpp"

#include <cmath>
#include <numbers>

namespace farflung::colour {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

double seventh(double x) {
  const double cube = x * x * x;
  return cube * cube * x;
}

/// The share of full chroma correction at chroma C: sqrt(C^7 / (C^7 + 25^7)).
double saturation(double C) {
  constexpr double kTwentyFiveToTheSeventh = 6103515625.0;
  const double C7 = seventh(C);
  return std::sqrt(C7 / (C7 + kTwentyFiveToTheSeventh));
}

/// Degrees in [0, 360); 0 for a neutral colour.
double hue(double a, double b) {
  if (a == 0 && b == 0) return 0;
  const double h = std::atan2(b, a) / kDegree;
  return h < 0 ? h + 360 : h;
}

}  // namespace

double delta_e_2000(Lab first, Lab second) {
  const double C1 = std::hypot(first.a, first.b), C2 = std::hypot(second.a, second.b);
  const double G = 0.5 * (1 - saturation((C1 + C2) / 2));
  const double a1 = (1 + G) * first.a, a2 = (1 + G) * second.a;
  const double C1p = std::hypot(a1, first.b), C2p = std::hypot(a2, second.b);
  const double h1 = hue(a1, first.b), h2 = hue(a2, second.b);
  const bool neutral = C1p * C2p == 0;

  double dh = neutral ? 0 : h2 - h1;
  if (dh > 180) dh -= 360;
  if (dh < -180) dh += 360;
  const double dL = second.L - first.L;
  const double dC = C2p - C1p;
  const double dH = 2 * std::sqrt(C1p * C2p) * std::sin(dh / 2 * kDegree);

  const double L = (first.L + second.L) / 2, C = (C1p + C2p) / 2;
  double h = h1 + h2;
  if (!neutral) {
    if (std::abs(h1 - h2) > 180) h += h < 360 ? 360 : -360;
    h /= 2;
  }
  const double T = 1 - 0.17 * std::cos((h - 30) * kDegree) + 0.24 * std::cos(2 * h * kDegree) +
                   0.32 * std::cos((3 * h + 6) * kDegree) - 0.20 * std::cos((4 * h - 63) * kDegree);
  const double L50 = (L - 50) * (L - 50);
  const double S_L = 1 + 0.015 * L50 / std::sqrt(20 + L50);
  const double S_C = 1 + 0.045 * C;
  const double S_H = 1 + 0.015 * C * T;
  const double turn = (h - 275) / 25;
  const double R_T = -2 * saturation(C) * std::sin(60 * std::exp(-turn * turn) * kDegree);

  const double l = dL / S_L, c = dC / S_C, k = dH / S_H;
  return std::sqrt(l * l + c * c + k * k + R_T * c * k);
}

}  // namespace farflung::colour
