#include "sheet/mark.hpp"

namespace farflung::sheet {

void add_mark(draw::Display& display, std::size_t cells,
              const std::function<bool(std::size_t row, std::size_t column)>& black, draw::Vec corner, double side) {
  constexpr draw::Colour kBlack{0, 0, 0, 1};
  for (std::size_t row = 0; row < cells; ++row) {
    for (std::size_t from = 0; from < cells; ++from) {
      if (!black(row, from)) continue;
      std::size_t to = from;
      while (to < cells && black(row, to)) ++to;
      const double overlap = row + 1 < cells ? 0.05 : 0;
      display.add(draw::Area{
          draw::outline_of({corner.x + static_cast<double>(from) * side, corner.y + static_cast<double>(row) * side,
                            static_cast<double>(to - from) * side, side + overlap}),
          kBlack});
      from = to;
    }
  }
}

}  // namespace farflung::sheet
