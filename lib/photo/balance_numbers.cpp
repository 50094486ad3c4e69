#include "photo/balance_numbers.hpp"

#include <algorithm>
#include <cmath>

#include "photo/lamp.hpp"

namespace farflung::photo {

Balance balance_of(const BalanceNumbers& n) {
  Balance b;
  b.curve.gamma = std::clamp(n[kGamma], 0.5, 2.0);
  b.curve.shoulder = std::clamp(n[kShoulder], -0.6, 3.0);
  b.curve.knee = std::clamp(n[kKnee], 0.0, 4.0);
  b.curve.flare = n[kFlare];
  b.curve.full = std::clamp(n[kFullValue], 0.88, 1.0);
  b.curve.steep = 4 * (std::exp(std::clamp(n[kSteepness], 0.0, 5.0)) - 1);
  b.curve.contrast = std::clamp(n[kContrast], -0.1, 0.12);
  b.fall = {n[kFallX], n[kFallY]};
  for (std::size_t c = 0; c < 3; ++c) b.gain[c] = std::exp(n[kGains + c]);
  for (std::size_t row = 0, i = kMatrix; row < 3; ++row) {
    double rest = 1;
    for (std::size_t column = 0; column < 3; ++column) {
      if (row != column) b.matrix[6 * row + column] = n[i], rest -= n[i], ++i;
    }
    b.matrix[6 * row + row] = rest;
    for (std::size_t k = 0; k < 3; ++k) b.matrix[6 * row + 3 + k] = n[kRoots + 3 * row + k];
  }
  return b;
}

void stand_upright(BalanceNumbers& numbers, double mired) {
  const std::array<double, 9> hues = upright_hues(mired);
  for (std::size_t row = 0, i = kMatrix; row < 3; ++row) {
    for (std::size_t column = 0; column < 3; ++column) {
      if (row != column) numbers[i] = hues[3 * row + column], ++i;
    }
  }
}

}  // namespace farflung::photo
