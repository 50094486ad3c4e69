#include "photo/teeth.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

#include "base/median.hpp"

namespace farflung::photo {
namespace {

constexpr double kLeastTooth = 0.02;                 ///< of the pitch: less wandering is a print's, not the edge's
constexpr double kWidestBlur = 1.8;                  ///< pixels, standard deviation
constexpr double kAlikePitch = 0.3;                  ///< by which the pitch may differ between sides
constexpr double kAlikeCount = 0.1;                  ///< and the number of teeth between opposite ones
constexpr double kCoarse = 5;                        ///< pixels: finer teeth cannot be told from a print's own repeat
constexpr double kShallowest = 0.4, kDeepest = 1.5;  ///< of what shears cut, as blurred and frayed teeth are seen
constexpr double kMiddleOfDepth = 0.8;               ///< of a tooth's depth, between tenth and ninetieth percentile

/// How widely what is left of teeth of a pitch wanders at least, in pixels: half as widely as through the widest blur.
double least_amplitude(double pitch) {
  return std::max(kLeastTooth * pitch, amplitude_of_teeth(pitch, kWidestBlur) / 2);
}

constexpr double kLeastPitch = 3.2;                   ///< pixels, of teeth that can be told at all
constexpr double kFewestTeeth = 14, kMostTeeth = 90;  ///< of a whole side, that are looked for
constexpr double kFinerTeeth = 0.35;                  ///< between numbers of them that are tried

/// The pitch in pixels of what wanders evenly about the line, where anything does: the period that is likest to teeth,
/// where it stands far above those about it. A check's own period may be stronger.
std::optional<double> even_pitch(const std::vector<Crossing>& points, const Line& line, double length) {
  constexpr std::size_t kFewestPoints = 40, kAbout = 36;  // of the numbers tried, on either side
  constexpr double kAboveOthers = 8;                      // times their median
  if (points.size() < kFewestPoints) return {};
  constexpr double kMost = 6;  // pixels
  std::vector<Crossing> wandering = points;
  for (Crossing& p : wandering) p.out = std::clamp(p.out - line.at(p.along), -kMost, kMost);
  const std::vector<double> carried = carried_by_teeth(wandering, length);
  double most = 1;
  std::optional<double> best;
  for (std::size_t i = 0; i < carried.size(); ++i) {
    const double pitch = length / teeth_at(i);
    const double likeness = 2 * std::sqrt(carried[i]) / least_amplitude(pitch);
    if (likeness <= most) continue;
    if (carried[i] > kAboveOthers * usual_about(carried, i, kAbout)) most = likeness, best = pitch;
  }
  return best;
}

bool as_shears_cut(const Wandering& side) {
  if (side.pitch < kCoarse) return false;
  const double depth = side.depth / (kMiddleOfDepth * kToothDepth * side.pitch);
  return depth > kShallowest && depth < kDeepest;
}

}  // namespace

double amplitude_of_teeth(double pitch, double blur) {
  // Of a wave of straight flanks; what a blur leaves of a period is the Gaussian's own transform.
  const double sharp = 4 / (CV_PI * CV_PI) * kToothDepth * pitch;
  return sharp * std::exp(-2 * CV_PI * CV_PI * blur * blur / (pitch * pitch));
}

std::vector<double> carried_by_teeth(const std::vector<Crossing>& points, double length) {
  // Each point's wave at the number of teeth that is tried, and its turn from one number to the next.
  std::vector<std::complex<double>> waves, turns;
  for (const Crossing& p : points) {
    waves.push_back(std::polar(p.out, 2 * CV_PI * kFewestTeeth * p.along));
    turns.push_back(std::polar(1.0, 2 * CV_PI * kFinerTeeth * p.along));
  }
  std::vector<double> carried;
  const double n = static_cast<double>(points.size()), most = std::min(kMostTeeth, length / kLeastPitch);
  const int numbers = most < kFewestTeeth ? 0 : static_cast<int>((most - kFewestTeeth) / kFinerTeeth) + 1;
  for (int number = 0; number < numbers; ++number) {
    double c = 0, s = 0;
    for (std::size_t i = 0; i < waves.size(); ++i) {
      const double re = waves[i].real(), im = waves[i].imag(), cosine = turns[i].real(), sine = turns[i].imag();
      c += re, s += im;
      waves[i] = {re * cosine - im * sine, re * sine + im * cosine};
    }
    carried.push_back((c * c + s * s) / (n * n));
  }
  return carried;
}

double teeth_at(std::size_t index) { return kFewestTeeth + kFinerTeeth * static_cast<double>(index); }

double usual_about(const std::vector<double>& carried, std::size_t index, std::size_t reach) {
  const auto from = carried.begin() + static_cast<std::ptrdiff_t>(index < reach ? 0 : index - reach);
  const auto to = carried.begin() + static_cast<std::ptrdiff_t>(std::min(carried.size(), index + reach + 1));
  return median(std::vector<double>(from, to));
}

std::optional<double> pitch_of_teeth(const std::vector<Crossing>& points, const Line& line, double length) {
  if (const auto pitch = even_pitch(points, line, length)) return pitch;
  constexpr int kParts = 3;
  constexpr double kMostGrowth = 1.6;  // from the first third to the last
  std::vector<double> pitches;
  for (int part = 0; part < kParts; ++part) {
    std::vector<Crossing> some;
    for (const Crossing& p : points) {
      if (static_cast<int>(p.along * kParts) == part) some.push_back(p);
    }
    if (const auto pitch = even_pitch(some, line, length)) pitches.push_back(*pitch);
  }
  if (pitches.size() + 1 < kParts) return {};
  const auto [least, most] = std::minmax_element(pitches.begin(), pitches.end());
  return *most < kMostGrowth * *least ? std::optional<double>((*least + *most) / 2) : std::nullopt;
}

double common_pitch(const std::array<double, 4>& of_sides, int least) {
  std::vector<double> pitches;
  for (const double pitch : of_sides) {
    if (pitch > 0) pitches.push_back(pitch);
  }
  if (pitches.size() < static_cast<std::size_t>(least)) return 0;
  std::sort(pitches.begin(), pitches.end());
  const double middle = pitches[pitches.size() / 2];
  int alike = 0;
  for (const double pitch : pitches) alike += std::abs(pitch / middle - 1) < kAlikePitch;
  return alike >= least ? middle : 0;
}

std::optional<std::array<double, 4>> pinked_round(const std::array<Wandering, 4>& sides) {
  std::array<bool, 4> pinked{};
  std::array<double, 4> number{};
  for (std::size_t i = 0; i < 4; ++i) {
    pinked[i] = as_shears_cut(sides[i]);
    number[i] = pinked[i] ? sides[i].length / sides[i].pitch : 0;
  }
  const auto pair = [&](std::size_t i) {
    return pinked[i] && pinked[i + 2] && std::abs(number[i] / number[i + 2] - 1) < kAlikeCount;
  };
  for (const std::size_t first : {0, 1}) {
    if (!pair(first)) continue;
    const double pitch = (sides[first].pitch + sides[first + 2].pitch) / 2;
    const std::size_t left = (first + 1) % 4, right = (first + 3) % 4;
    const auto alike = [&](std::size_t i) { return pinked[i] && std::abs(sides[i].pitch / pitch - 1) < kAlikePitch; };
    if (!alike(left) && !alike(right)) continue;
    std::array<double, 4> pitches{};
    for (std::size_t i = 0; i < 4; ++i) pitches[i] = sides[i].pitch;
    if (!alike(left)) pitches[left] = sides[left].length / number[right];
    if (!alike(right)) pitches[right] = sides[right].length / number[left];
    return pitches;
  }
  return {};
}

}  // namespace farflung::photo
