// A balance as numbers that may each run freely, and where ordinary cameras and rooms have them.
#pragma once

#include <array>
#include <cstddef>

#include "photo/balance.hpp"
#include "photo/balance_fit.hpp"

namespace farflung::photo {

/// The places of the numbers; last, what is not known of a printed sheet.
enum BalanceNumber : std::size_t {
  kGamma,
  kShoulder,
  kKnee,
  kFlare,
  kContrast,
  kFullValue,  ///< the encoded value above which a sensor is full
  kSteepness,  ///< log of 1 + a quarter of how steeply light grows there
  kFallX,
  kFallY,
  kGains,                ///< logs, of red, green and blue
  kSpread = kGains + 3,  ///< inches by which ink runs
  kInk,                  ///< L* of ink
  kSharpening,           ///< share by which the camera exaggerates what differs from pixel to pixel
  kMatrix,               ///< off its diagonal
  kRoots = kMatrix + 6,
  kBalanceNumbers = kRoots + 9
};
using BalanceNumbers = std::array<double, kBalanceNumbers>;

/// Where each number lies in ordinary cameras and rooms, and how far it strays. The curve is that of telephones, as
/// fitted to photographs of a 24-patch chart.
inline constexpr BalanceNumbers kUsualBalance = {1, 0.45, 0, -0.004, 0.022,           0.96, 0, 0, 0,
                                                 0, 0,    0, 0.0012, kPrintedBlack.L, 0.25};
inline constexpr BalanceNumbers kUsualStray = {0.12, 0.35, 0.5,    0.002, 0.02, 0.03, 1,   0.2, 0.2, 15,
                                               15,   15,   0.0006, 2.5,   0.2,  0.3,  0.3, 0.3, 0.3, 0.3,
                                               0.3,  0.5,  0.5,    0.5,   0.5,  0.5,  0.5, 0.5, 0.5, 0.5};

/// What a camera does that has such numbers; without a field.
Balance balance_of(const BalanceNumbers& numbers);

/// Gives a matrix's numbers those that turn no hue in light of this colour, in mired.
void stand_upright(BalanceNumbers& numbers, double mired);

}  // namespace farflung::photo
