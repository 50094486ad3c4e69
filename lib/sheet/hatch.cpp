#include "sheet/hatch.hpp"

#include <vector>

namespace farflung::sheet {

void add_hatched(draw::Display& display, const draw::Outline& outline, int way, double spacing) {
  static const std::vector<std::vector<double>> kWays = {{}, {45}, {-45}, {0}, {90}, {45, -45}, {0, 90}};
  constexpr draw::Colour kRule = draw::grey_level(0.62);
  display.add(draw::Area{outline, draw::kWhite});
  const std::size_t count = kWays.size();
  const double apart = spacing / (1 + static_cast<double>(way) / static_cast<double>(count) * 0.6);
  for (const double degrees : kWays[static_cast<std::size_t>(way) % count]) {
    for (const draw::Segment& line : draw::hatched(outline, apart, degrees)) {
      display.add(draw::Line{{line.from, line.to}, 0.45, kRule});
    }
  }
}

}  // namespace farflung::sheet
