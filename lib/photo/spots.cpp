#include "photo/spots.hpp"

#include <cmath>
#include <numbers>

#include "photo/backdrop.hpp"

namespace farflung::photo {
namespace {

/// How much of an unsharp mask waves of so many pixels take: all where they are short, little where they are long.
double sharpening_taken(double period) {
  constexpr double kMask = 1.2;  // pixels, its standard deviation
  const double turns = 2 * std::numbers::pi * kMask / std::max(period, 1e-3);
  return 1 - std::exp(-turns * turns / 2);
}

/// Lines of two pixels or a little less fall in with the pixels: a patch of them is darker or paler than they are.
double aliased(double period) {
  constexpr double kWorst = 2, kWidth = 0.6;  // pixels
  const double off = (period - kWorst) / kWidth;
  return std::exp(-off * off);
}

/// How far off the light on a thing may be, L*: under the thing the backdrop is guessed, beside it it is seen, and the
/// rim of a shade may run between the two.
double light_unsure(const KnownColour& known, const Backdrop& backdrop) {
  const std::array<double, 3> under = seen_at(backdrop, known.x, known.y),
                              beside = seen_at(backdrop, known.beside[0], known.beside[1]);
  return 100 * std::abs(under[1] - beside[1]);
}

Spot spot_of(const KnownColour& known, const Backdrop& backdrop) {
  Spot spot;
  spot.seen = known.seen, spot.x = known.x, spot.y = known.y;
  spot.truth = known.truth;
  spot.good = known.good;
  if (!backdrop.empty()) spot.good[0] = std::hypot(spot.good[0], light_unsure(known, backdrop));
  spot.perhaps = known.perhaps;
  return spot;
}

Spot spot_of(const ScreenSeen& screen) {
  constexpr double kUnevenAtMost = 0.03;  // as light falls off over an inch
  Spot spot;
  spot.seen = screen.seen, spot.x = screen.x, spot.y = screen.y;
  spot.truth = kPaperWhite;
  spot.black = screen.black, spot.pitch = screen.pitch;
  spot.paper = screen.paper.seen;
  // Lines that are seen apart say a little less; dark ones rest on what is thought of the ink.
  const double good = 1 + 3 * std::max(0.0, screen.contrast - 0.03) + 0.5 * std::pow(screen.black, 4) +
                      100 * std::max(0.0, screen.paper.uneven - kUnevenAtMost) + aliased(screen.period);
  spot.good = {good, good + 6 * screen.black, good + 6 * screen.black};
  spot.values = screen.values;
  spot.sharpened = sharpening_taken(screen.period);
  return spot;
}

bool is_burnt(const std::array<double, 3>& seen) {
  constexpr double kBurnt = 0.988;
  return *std::max_element(seen.begin(), seen.end()) > kBurnt;
}

}  // namespace

std::vector<Spot> spots_of(const Evidence& evidence) {
  constexpr std::ptrdiff_t kLeft = 3;  // so many at least tell enough without those that are burnt out
  std::vector<Spot> spots;
  for (const KnownColour& known : evidence.known) spots.push_back(spot_of(known, evidence.backdrop));
  for (const ScreenSeen& screen : evidence.screens) spots.push_back(spot_of(screen));
  for (Spot& spot : spots) {
    if (is_burnt(spot.paper)) spot.paper = {};
  }
  const auto burnt = [](const Spot& spot) { return is_burnt(spot.seen); };
  if (std::count_if(spots.begin(), spots.end(), burnt) + kLeft <= std::ssize(spots)) std::erase_if(spots, burnt);
  if (!evidence.backdrop.empty()) {
    for (Spot& spot : spots) spot.backdrop = seen_at(evidence.backdrop, spot.x, spot.y);
  }
  return spots;
}

}  // namespace farflung::photo
