#include "photo/balance.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

namespace farflung::photo {
namespace {

double eighth_power(double d) {
  const double squared = d * d, fourth = squared * squared;
  return fourth * fourth;
}

double root(double p, double q) { return (p > 0 && q > 0 ? std::sqrt(p * q) : 0) - (p + q) / 2; }

/// Encoded values over which a sensor becomes full: pixels of one colour do not all come to it at once.
constexpr double kSoft = 0.006;

/// `x` where it is above 0, else 0, the corner rounded.
double above(double x) { return x <= 0 ? 0 : x < kSoft ? x * x / (2 * kSoft) : x - kSoft / 2; }

/// sRGB bytes of light, by a table over its square root: finer where it is dark.
class Encoder {
 public:
  std::uint8_t operator()(double light) const {
    // Never negative, and lround would be a call for each byte. NOLINTNEXTLINE(bugprone-incorrect-roundings)
    return table_[static_cast<std::size_t>(std::sqrt(std::clamp(light, 0.0, 1.0)) * kSteps + 0.5)];
  }

 private:
  static constexpr int kSteps = 4096;

  static std::vector<std::uint8_t> encoded() {
    std::vector<std::uint8_t> table(kSteps + 1);
    for (int i = 0; i <= kSteps; ++i) {
      const double root_of_light = static_cast<double>(i) / kSteps;
      table[i] = static_cast<std::uint8_t>(std::lround(255 * colour::encoded(root_of_light * root_of_light)));
    }
    return table;
  }

  std::vector<std::uint8_t> table_ = encoded();
};

}  // namespace

double Curve::light(double encoded) const {
  const double d = colour::decoded(std::max(0.0, encoded + contrast * std::sin(2 * std::numbers::pi * encoded)));
  const double power = gamma == 1 ? d : std::pow(d, gamma);
  return power * (1 + shoulder * d + knee * eighth_power(d)) / (1 + shoulder + knee) - flare +
         steep * above(encoded - full);
}

double Curve::steepened(double encoded) const { return steep * std::clamp((encoded - full) / kSoft, 0.0, 1.0); }

double Balance::light_at(double x, double y) const {
  return std::exp(fall[0] * x + fall[1] * y) * photo::light_at(field, x, y);
}

colour::Light Balance::mixed(double r, double g, double b) const {
  r *= gain[0], g *= gain[1], b *= gain[2];
  const std::array<double, 6> terms = {r, g, b, root(r, g), root(g, b), root(b, r)};
  std::array<double, 3> light{};
  for (std::size_t row = 0; row < 3; ++row) {
    for (std::size_t i = 0; i < 6; ++i) light[row] += matrix[6 * row + i] * terms[i];
  }
  return {light[0], light[1], light[2]};
}

colour::Light Balance::corrected(const std::array<double, 3>& seen, double x, double y) const {
  const double light = light_at(x, y);
  return mixed(curve.light(seen[0]) / light, curve.light(seen[1]) / light, curve.light(seen[2]) / light);
}

Picture balanced(const Picture& swatch, const Corners& corners, double columns, double rows, const Balance& balance) {
  std::array<double, 256> straightened{};
  for (int v = 0; v < 256; ++v) straightened[v] = balance.curve.light(v / 255.0);
  static const Encoder byte;
  Picture result(swatch.columns, swatch.rows);
  constexpr int kRun = 8;  // pixels that are lit alike
  for (int row = 0; row < swatch.rows; ++row) {
    const double v = (row + 0.5) / swatch.rows;
    double light = 1;
    for (int column = 0; column < swatch.columns; ++column) {
      if (column % kRun == 0) {
        const double u = (column + 0.5 * kRun) / swatch.columns;
        double x = 0, y = 0;
        const std::array<double, 4> weight = {(1 - u) * (1 - v), u * (1 - v), u * v, (1 - u) * v};
        for (int i = 0; i < 4; ++i) x += weight[i] * corners[i][0], y += weight[i] * corners[i][1];
        light = 1 / balance.light_at(2 * x / columns - 1, 2 * y / rows - 1);
      }
      const colour::Srgb p = swatch.at(column, row);
      const colour::Light daylight =
          balance.mixed(straightened[p.r] * light, straightened[p.g] * light, straightened[p.b] * light);
      result.set(column, row, {byte(daylight.r), byte(daylight.g), byte(daylight.b)});
    }
  }
  return result;
}

}  // namespace farflung::photo
