#include "simulator/light.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "photo/balance_fit.hpp"
#include "photo/lamp.hpp"

namespace farflung::photo {
namespace {

/// A telephone's curve: steeper in the middle, the brightest softened.
double developed(double light) {
  const double v = colour::encoded(light), soft = v < 0.7 ? v : 0.7 + 0.3 * (1 - std::exp(-(v - 0.7) / 0.3));
  return soft - 0.05 * std::sin(2 * 3.14159265358979 * soft);
}

std::array<double, 3> grey(double light) { return {developed(light), developed(light), developed(light)}; }

double seen_lightness(const Balance& balance, const std::array<double, 3>& seen, double x = 0, double y = 0) {
  return colour::lab_from_light(balance.corrected(seen, x, y)).L;
}

double lightness(double light) { return colour::lab_from_light({light, light, light}).L; }

/// White and screens as such a camera sees them when ink runs a 1/600 inch.
Evidence sheet_seen(double exposure) {
  const double white = colour::xyz_from_lab(kPaperWhite).Y, ink = 0.04;
  Evidence evidence;
  evidence.known.push_back({grey(exposure * white), 0, 0, kPaperWhite});
  for (const double black : {0.125, 0.25, 0.5, 0.75, 0.875, 0.9375}) {
    for (const double pitch : {0.02, 0.08}) {
      const double share = std::min(1.0, black + 2 / 600.0 / pitch);
      evidence.screens.push_back({grey(exposure * ((1 - share) * white + share * ink)), 0, 0, black, pitch, 0});
    }
  }
  evidence.screens.push_back({grey(exposure * ink), 0, 0, 1, 1, 0});
  return evidence;
}

TEST(Balance, GreyScreensTellACamerasCurveWhateverThePrintersInk) {
  for (const double exposure : {0.4, 0.8, 1.2}) {
    const Balance balance = fitted_balance(sheet_seen(exposure));
    for (const double light : {0.08, 0.2, 0.4, 0.6, 0.8}) {
      EXPECT_NEAR(seen_lightness(balance, grey(exposure * light)), lightness(light), 1.5) << exposure << ' ' << light;
    }
  }
}

/// A warm lamp on white, screens and ink; the sensor is full of red where paper or a pale grey lies.
std::array<double, 3> warm(double light) {
  const auto through = [](double strength) {
    const double beyond = std::max(0.0, strength - 1);
    return 0.95 * colour::encoded(std::min(strength, 1.0)) + 0.03 * (1 - std::exp(-beyond / 0.3));
  };
  return {through(1.5 * light), through(1.1 * light), through(0.75 * light)};
}

TEST(Balance, ASensorFullOfRedWhereThePaperLiesTurnsNoCloth) {
  Evidence evidence = sheet_seen(1);
  const double white = colour::xyz_from_lab(kPaperWhite).Y, ink = 0.04;
  evidence.known.clear();
  for (const double x : {-0.5, -0.2, 0.1, 0.4}) evidence.known.push_back({warm(white), x, 0.3, kPaperWhite});
  for (ScreenSeen& screen : evidence.screens) {
    const double share = std::min(1.0, screen.black + 2 / 600.0 / screen.pitch);
    screen.seen = warm((1 - share) * white + share * ink);
    screen.paper.seen = warm(white);
  }
  const Balance balance = fitted_balance(evidence);
  for (const double light : {0.08, 0.2, 0.4, 0.55}) {
    const colour::Lab seen = colour::lab_from_light(balance.corrected(warm(light), 0, 0));
    EXPECT_NEAR(seen.L, lightness(light), 1.5) << light;
    EXPECT_LT(std::hypot(seen.a, seen.b), 1) << light;
  }
}

TEST(Balance, UnevenWhitesSayNothingOfTheCurve) {
  Evidence evidence;
  for (int i = 0; i < 40; ++i) evidence.known.push_back({grey(0.5 + 0.01 * (i % 5)), -0.9 + 0.04 * i, 0, kPaperWhite});
  EXPECT_EQ(fitted_balance(evidence).curve, fitted_balance({{evidence.known[2]}, {}, {}}).curve);
}

TEST(Balance, TheRimOfAShadeAcrossTheSheetBendsNeitherCurveNorLight) {
  Evidence evidence = sheet_seen(0.5);
  const double white = colour::xyz_from_lab(kPaperWhite).Y;
  evidence.backdrop = {2, 2, {}};
  for (int i = 0; i < 4; ++i) evidence.backdrop.values.push_back({0.6F, 0.6F, 0.6F});
  evidence.known.insert(evidence.known.end(), 6, evidence.known[0]);
  // Four whites, and the greys beside them, lie in half as much light again, of which the backdrop knows nothing.
  for (int i = 0; i < 4; ++i) evidence.known.push_back({grey(0.75 * white), 0, 0, kPaperWhite});
  for (const ScreenSeen& screen : sheet_seen(0.75).screens) {
    if (screen.black > 0.6) continue;
    evidence.screens.push_back(screen);
    evidence.screens.back().paper.seen = grey(0.75 * white);
  }
  const Balance balance = fitted_balance(evidence);
  for (const double light : {0.1, 0.3, 0.6, 0.8})
    EXPECT_NEAR(seen_lightness(balance, grey(0.5 * light)), lightness(light), 1.5) << light;
}

std::vector<double> blurred_line(const std::vector<double>& line, double pixels) {
  const int reach = static_cast<int>(4 * pixels) + 1, size = static_cast<int>(line.size());
  std::vector<double> result(line.size());
  for (int i = 0; i < size; ++i) {
    double sum = 0, weights = 0;
    for (int k = -reach; k <= reach; ++k) {
      const double weight = std::exp(-k * k / (2 * pixels * pixels));
      sum += weight * line[(i + k + size) % size], weights += weight;
    }
    result[i] = sum / weights;
  }
  return result;
}

/// A coarse screen whose lines are seen apart, as a camera sees them that sharpens what it has developed: in the mean
/// lighter than they are.
ScreenSeen sharpened_screen(double exposure, double black, double period, double sharpening) {
  constexpr double kPitch = 0.08;
  constexpr int kFiner = 20, kPixels = 240;
  const double share = black + 2 / 600.0 / kPitch, white = colour::xyz_from_lab(kPaperWhite).Y, ink = 0.04;
  std::vector<double> light(kPixels);
  for (int i = 0; i < kPixels * kFiner; ++i) {
    const double at = (i + 0.5) / kFiner / period;
    light[i / kFiner] += exposure * (at - std::floor(at) < share ? ink : white) / kFiner;
  }
  std::vector<double> seen = blurred_line(light, 0.7);
  for (double& v : seen) v = developed(v);
  const std::vector<double> mask = blurred_line(seen, 1.2);
  ScreenSeen screen{{}, 0, 0, black, kPitch};
  double sum = 0, mean = 0, squares = 0;
  for (int i = 0; i < kPixels; ++i) {
    const double v = std::clamp(seen[i] + sharpening * (seen[i] - mask[i]), 0.0, 1.0);
    for (Values& values : screen.values) values.add(v, 1.0 / kPixels);
    sum += colour::decoded(v) / kPixels, mean += v / kPixels, squares += v * v / kPixels;
  }
  screen.seen.fill(colour::encoded(sum));
  screen.contrast = std::sqrt(squares - mean * mean), screen.period = period;
  return screen;
}

TEST(Balance, LinesThatAreSeenApartAreSeenThroughTheirSharpening) {
  for (const double sharpening : {0.0, 0.2, 0.4}) {
    for (const double period : {3.0, 6.0, 16.0}) {
      Evidence evidence = sheet_seen(0.8);
      const Balance before = fitted_balance(evidence);
      for (const double black : {0.25, 0.5, 0.75})
        evidence.screens.push_back(sharpened_screen(0.8, black, period, sharpening));
      const Balance after = fitted_balance(evidence);
      for (const double light : {0.1, 0.3, 0.6}) {
        EXPECT_NEAR(seen_lightness(after, grey(0.8 * light)), seen_lightness(before, grey(0.8 * light)), 0.8)
            << sharpening << ' ' << period << ' ' << light;
      }
    }
  }
}

TEST(Balance, ASurfaceSeenAllOverTellsHowTheLightFallsWhateverItsCurve) {
  const auto light = [](double x, double y) { return 0.7 - 0.3 * (x + 1) * (x + 1) / 4 + 0.1 * y * x; };
  Evidence evidence = sheet_seen(0.7 * light(0, 0));
  evidence.backdrop = {33, 25, {}};
  for (int i = 0; i < 33 * 25; ++i) {
    const auto v = static_cast<float>(developed(0.5 * light(-1 + i % 33 / 16.0, -1 + i / 33 / 12.0)));
    evidence.backdrop.values.push_back({v, v, v});
  }
  const Balance balance = fitted_balance(evidence);
  for (const double x : {-0.9, -0.3, 0.4, 0.9}) {
    for (const double y : {-0.8, 0.5}) {
      EXPECT_NEAR(seen_lightness(balance, grey(0.7 * light(x, y) * 0.35), x, y), lightness(0.35), 1.2) << x << ' ' << y;
    }
  }
}

TEST(Balance, NothingKnownLeavesTheLightsColourAsItIs) {
  Evidence evidence;
  evidence.backdrop = {3, 2, {}};
  for (const float v : {0.4F, 0.5F, 0.6F, 0.4F, 0.5F, 0.6F})
    evidence.backdrop.values.push_back({v + 0.1F, v, v - 0.1F});
  const Balance balance = fitted_balance(evidence);
  const colour::Light middle = balance.corrected({0.5, 0.4, 0.6}, 0, 0);
  EXPECT_NEAR(middle.r, colour::decoded(0.5), 1e-6);
  EXPECT_NEAR(middle.b, colour::decoded(0.6), 1e-6);
  EXPECT_GT(balance.corrected({0.5, 0.4, 0.6}, -0.9, 0).g, middle.g);
}

TEST(Lamp, HuesLeanedByALampThatACameraMadeWhiteStandUprightAgain) {
  for (const double kelvin : {2800.0, 4500.0, 7000.0}) {
    const cv::Matx33d cast = simulator::cast_of(kelvin);
    const cv::Vec3d white = cast * cv::Vec3d(1, 1, 1), colour(0.5, 0.2, 0.1), seen = cast * colour;
    const std::array<double, 9> upright = upright_hues(1e6 / kelvin);
    for (std::size_t row = 0; row < 3; ++row) {
      double light = 0;
      for (int c = 0; c < 3; ++c) light += upright[3 * row + static_cast<std::size_t>(c)] * seen[c] / white[c];
      EXPECT_NEAR(light, colour[static_cast<int>(row)], 2e-3) << kelvin;
    }
  }
}

TEST(Lamp, TheMoreColourIsLeftTheWarmerTheLightWas) {
  double before = 0;
  for (const double left : {-0.15, -0.05, 0.0, 0.1, 0.3, 0.6}) {
    const double mired = likely_light(left);
    EXPECT_GE(mired, std::max(before, kCoolest));
    EXPECT_LE(mired, kWarmest);
    before = mired;
  }
}

TEST(Balance, PaperThatIsSeenFarBluerThanAnyLightLeavesItIsItselfBlue) {
  const auto blue_of = [](double blue) {
    const Balance balance = fitted_balance({{{{0.8, 0.8, 0.8 + blue}, 0, 0, kPaperWhite}}, {}, {}});
    return colour::lab_from_light(balance.corrected({0.8, 0.8, 0.8 + blue}, 0, 0)).b;
  };
  EXPECT_NEAR(blue_of(0), kPaperWhite.b, 0.5);
  EXPECT_NEAR(blue_of(-0.2), kPaperWhite.b, 0.5);
  EXPECT_LT(blue_of(0.1), -5);
  EXPECT_GT(blue_of(0.2), -14);
}

TEST(Curve, SaysHowMuchSteeperItIsWhereASensorIsFull) {
  Curve curve;
  curve.contrast = 0.02, curve.shoulder = 0.45;
  const Curve plain = curve;
  curve.full = 0.95, curve.steep = 3;
  const auto slope = [](const Curve& of, double at) { return (of.light(at + 1e-5) - of.light(at - 1e-5)) / 2e-5; };
  for (const double at : {0.9, 0.953, 0.98}) {
    EXPECT_NEAR(curve.steepened(at), slope(curve, at) - slope(plain, at), 1e-3) << at;
  }
}

}  // namespace
}  // namespace farflung::photo
