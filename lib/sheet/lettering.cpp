#include "sheet/lettering.hpp"

#include <algorithm>
#include <string>

#include "draw/text.hpp"

namespace farflung::sheet {

bool Lettering::is_free(const draw::Box& box) const {
  return std::none_of(taken_.begin(), taken_.end(), [&](const draw::Box& other) { return box.overlaps(other, 0.1); });
}

bool Lettering::add(draw::Display& display, const draw::Text& text) { return add_on_plate(display, {}, text); }

bool Lettering::add_on_plate(draw::Display& display, const draw::Outline& plate, const draw::Text& text) {
  const draw::Box box = draw::box_of(text);
  if (!is_free(box)) return false;
  taken_.push_back(box);
  if (!plate.empty()) display.add(draw::Area{plate, draw::kWhite});
  display.add(text);
  return true;
}

bool Lettering::add_numbered(draw::Display& display, int number, const std::vector<draw::Vec>& places, double size) {
  const std::string words = std::to_string(number);
  const double wide = std::max(draw::width_of(words, size, true), size) + 3;
  const double tall = 1.35 * size;
  for (const draw::Vec& centre : places) {
    const draw::Box plate = {centre.x - wide / 2, centre.y - tall / 2, wide, tall};
    if (!is_free(plate)) continue;
    taken_.push_back(plate);
    display.add(draw::Area{draw::rounded(plate, tall / 2), draw::kWhite});
    display.add(draw::Line{draw::rounded(plate, tall / 2), 0.6, draw::kInk, true});
    display.add(draw::Text{words,
                           {centre.x, centre.y + draw::kCapHeight * size / 2},
                           size,
                           draw::Anchor::middle,
                           true,
                           draw::kInk,
                           draw::Role::caption});
    return true;
  }
  return false;
}

}  // namespace farflung::sheet
