#include "draw/grey.hpp"

#include <algorithm>
#include <array>

namespace farflung::draw {

namespace {

/// The light half way between each level and the next: where rounding goes over.
const std::array<double, 255>& half_way() {
  static const auto table = [] {
    std::array<double, 255> t{};
    for (int i = 0; i < 255; ++i) t[i] = colour::decoded((i + 0.5) / 255);
    return t;
  }();
  return table;
}

}  // namespace

std::uint8_t grey_of(colour::Srgb pixel) {
  // L* depends on the luminance alone, so the grey of equal luminance is the grey of equal L*.
  const double y = colour::xyz_from_light(colour::light_from_srgb(pixel)).Y;
  const auto& table = half_way();
  return static_cast<std::uint8_t>(std::upper_bound(table.begin(), table.end(), y) - table.begin());
}

Colour in_grey(const Colour& colour) {
  const double y =
      colour::xyz_from_light({colour::decoded(colour.red), colour::decoded(colour.green), colour::decoded(colour.blue)})
          .Y;
  return grey_level(colour::encoded(y), colour.alpha);
}

Display in_grey(const Display& display) {
  Display result = display;
  for (Item& item : result.items) {
    if (auto* area = std::get_if<Area>(&item)) {
      if (auto* cloth = std::get_if<Cloth>(&area->paint)) {
        cloth->plain = in_grey(cloth->plain);
      } else {
        area->paint = in_grey(std::get<Colour>(area->paint));
      }
    } else if (auto* line = std::get_if<Line>(&item)) {
      line->colour = in_grey(line->colour);
    } else if (auto* text = std::get_if<Text>(&item)) {
      text->colour = in_grey(text->colour);
    }
  }
  return result;
}

}  // namespace farflung::draw
