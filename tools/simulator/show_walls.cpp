// Writes photographs of a wall of blocks for judging by eye: show_walls DIR FIRST COUNT [ROWS COLUMNS [WIDTH]]
#include <cstdio>
#include <cstdlib>
#include <string>

#include "simulator/demo.hpp"
#include "simulator/wall_photographer.hpp"

namespace {

using namespace farflung;
using namespace farflung::simulator;

Polygon patch(double left, double top, double width, double height) {
  return rectangle(Length::inches(left), Length::inches(top), Length::inches(width), Length::inches(height));
}

/// Churn dash, which shows squares, triangles and strips.
block::Pattern churn_dash() {
  block::Pattern pattern;
  pattern.id = "churn-dash";
  pattern.width = pattern.height = Length::inches(9);
  pattern.turns = {Turn(), Turn::quarters(1), Turn::quarters(2), Turn::quarters(3)};
  pattern.slots = {{"A", block::kNone, false}, {"B", block::kNone, false}};
  const auto at = [](double x, double y) { return Point{Length::inches(x), Length::inches(y)}; };
  pattern.patches = {{1, patch(3, 3, 3, 3)}};
  for (int k = 0; k < 4; ++k) {
    const Turn turn = Turn::quarters(k);
    const auto add = [&](int slot, const Polygon& polygon) {
      pattern.patches.push_back({slot, turned(polygon, pattern.width, pattern.height, turn)});
    };
    add(0, {at(0, 0), at(3, 0), at(0, 3)});
    add(1, {at(3, 0), at(3, 3), at(0, 3)});
    add(1, patch(3, 0, 3, 1.5));
    add(0, patch(3, 1.5, 3, 1.5));
  }
  return pattern;
}

quilt::Quilt wall_quilt(int rows, int columns, Seed seed) {
  quilt::Quilt quilt;
  const std::vector<Fabric> fabrics = demo_fabrics();
  for (const Fabric& fabric : fabrics) {
    print::Print print;
    print.id = print.name = fabric.name;
    quilt.prints.push_back(print);
  }
  quilt.patterns = {churn_dash()};
  quilt.setting.rows = rows;
  quilt.setting.columns = columns;
  quilt.layout = setting::empty_arrangement(quilt.setting);
  Rng rng(seed);
  for (int i = 0; i < rows * columns; ++i) {
    block::Block block;
    block.prints = {static_cast<int>(rng.below(20)), static_cast<int>(rng.below(20))};
    quilt.blocks.push_back(block);
    quilt.layout.block[static_cast<std::size_t>(i)] = i;
    quilt.layout.turn[static_cast<std::size_t>(i)] = Turn::quarters(static_cast<int>(rng.below(4)));
  }
  return quilt;
}

}  // namespace

int main(int count, char** words) {
  if (count < 4) {
    std::fprintf(stderr, "show_walls DIR FIRST COUNT [ROWS COLUMNS [WIDTH]]\n");
    return 2;
  }
  const int rows = count > 5 ? std::atoi(words[4]) : 6, columns = count > 5 ? std::atoi(words[5]) : 7;
  const int width = count > 6 ? std::atoi(words[6]) : 1600;
  for (int i = std::atoi(words[2]), last = i + std::atoi(words[3]); i < last; ++i) {
    const Seed seed{static_cast<std::uint64_t>(i) + 1};
    Hanging hanging = wall_hanging(seed);
    if (i % 4 == 3) hanging.state = Hanging::State::sewn_top;
    const Shot shot = wall_shot(seed, {width, width * 3 / 4});
    const WallPhotograph photograph =
        photographed(wall_quilt(rows, columns, seed), demo_fabrics(), hanging, shot, seed);
    const std::string file = std::string(words[1]) + "/wall-" + std::to_string(i) + ".jpg";
    if (!written(file, jpeg_of(photograph.srgb, shot.develop.jpeg_quality))) return 1;
    std::printf("%s\n", file.c_str());
  }
  return 0;
}
