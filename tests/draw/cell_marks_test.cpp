#include "draw/cell_marks.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "support/random_quilt.hpp"

namespace farflung::draw {
namespace {

TEST(CellMarks, NoRingCrossesAPlate) {
  support::Wanted wanted;
  wanted.kind = setting::Setting::Kind::on_point;
  const quilt::Quilt quilt = support::random_quilt(Seed{3}, wanted);
  const setting::Plan plan = quilt::plan_of(quilt);
  Display display;
  add_cell_marks(display, plan, {0, 0}, 10,
                 {{0, CellMark::Kind::wrong, "to R5 C2"}, {3, CellMark::Kind::unsure, "look"}});
  std::size_t last_ring = 0, first_word = display.items.size();
  for (std::size_t i = 0; i < display.items.size(); ++i) {
    const auto* line = std::get_if<Line>(&display.items[i]);
    if (line != nullptr && line->points.size() == 4) last_ring = i;
    if (std::holds_alternative<Text>(display.items[i])) first_word = std::min(first_word, i);
  }
  EXPECT_LT(last_ring, first_word);
}

}  // namespace
}  // namespace farflung::draw
