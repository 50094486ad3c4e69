#include "choice/words.hpp"

#include <cmath>
#include <cstdio>
#include <numbers>

#include "base/length_text.hpp"

namespace farflung::choice {

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " and " : ", ";
    text += words[i];
  }
  return text;
}

std::string names_of(const std::vector<print::Print>& prints, const std::vector<int>& which) {
  std::vector<std::string> names;
  names.reserve(which.size());
  for (int i : which) names.push_back(name_of(prints[i]));
  return listed(names);
}

std::string rounded(double number, int places) {
  const double unit = std::pow(10, -places);
  if (std::abs(number) < unit / 2) number = 0;
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", places, number);
  return text;
}

std::string length_words(Length length, quilt::Units units) {
  if (units == quilt::Units::inches) return ruler_text(length, 8) + " in";
  return units == quilt::Units::millimetres ? rounded(length.millimetres(), 0) + " mm" : metric_text(length);
}

std::string percent(double share) { return rounded(100 * share, 0) + " %"; }

std::string hue_name(const colour::Lab& lab) {
  if (std::hypot(lab.a, lab.b) < 10) return "grey";
  double degrees = std::atan2(lab.b, lab.a) * 180 / std::numbers::pi;
  if (degrees < 0) degrees += 360;
  struct Arc {
    double to;
    const char* name;
  };
  // CIELAB angles: the sRGB primaries lie at 40 (red), 136 (green) and 306 (blue) degrees.
  constexpr Arc kArcs[] = {{15, "pink"},  {48, "red"},   {75, "orange"},  {105, "yellow"}, {170, "green"},
                           {220, "teal"}, {300, "blue"}, {335, "purple"}, {360, "pink"}};
  for (const Arc& arc : kArcs) {
    if (degrees < arc.to) return arc.name;
  }
  return "pink";
}

}  // namespace farflung::choice
