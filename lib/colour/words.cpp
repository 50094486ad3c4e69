#include "colour/words.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace farflung::colour {
namespace {

/// Hues by the angle, in degrees, at which each ends.
struct HueEnd {
  double degrees;
  const char* word;
};
constexpr std::array<HueEnd, 9> kHues = {{{12, "pink"},
                                          {46, "red"},
                                          {73, "orange"},
                                          {104, "yellow"},
                                          {168, "green"},
                                          {222, "teal"},
                                          {298, "blue"},
                                          {333, "purple"},
                                          {360, "pink"}}};

std::string shaded(const std::string& word, double L, double dark_below, double light_from) {
  if (L < dark_below) return "dark " + word;
  if (L >= light_from) return "light " + word;
  return word;
}

}  // namespace

std::string words(Lab lab) {
  const double chroma = std::hypot(lab.a, lab.b);
  double hue = std::atan2(lab.b, lab.a) * 180 / std::numbers::pi;
  if (hue < 0) hue += 360;
  const bool warm = hue > 40 && hue < 115;
  if (lab.L < 14 && chroma < 12) return "black";
  if (lab.L > 92 && chroma < 5) return "white";
  if (lab.L > 84 && warm && chroma < 26) return chroma < 5 ? "white" : "cream";
  if (chroma < (lab.L > 80 ? 5 : 7)) return lab.L > 92 ? "white" : shaded("grey", lab.L, 38, 70);
  std::string word = "pink";
  for (const HueEnd& end : kHues) {
    if (hue < end.degrees) {
      word = end.word;
      break;
    }
  }
  // Dark or dull orange and yellow are brown; pale or bluish red is pink, dark pink is red.
  if (word == "orange" && (lab.L < 58 || chroma < 38)) return shaded("brown", lab.L, 30, 62);
  if (word == "yellow" && lab.L < 62 && hue < 92) return shaded("brown", lab.L, 30, 58);
  if (word == "yellow" && lab.L < 60) return shaded("green", lab.L, 35, 78);
  if (word == "red" && lab.L < 40 && chroma < 32) return shaded("brown", lab.L, 30, 62);
  if (word == "red" && lab.L > 60) return hue > 38 && chroma > 45 ? "orange" : "pink";
  if (word == "pink" && lab.L < 40) return "dark red";
  return word == "yellow" || word == "orange" ? word : shaded(word, lab.L, 30, 74);
}

}  // namespace farflung::colour
