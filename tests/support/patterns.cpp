#include "support/patterns.hpp"

#include <algorithm>

namespace farflung::support {
namespace {

Point at(double x, double y) { return {Length::inches(x), Length::inches(y)}; }

Polygon box(double x0, double y0, double x1, double y1) { return {at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}; }

block::Pattern six_inches(const std::string& id, std::vector<std::string> slots, std::vector<int> turns) {
  block::Pattern pattern;
  pattern.id = pattern.name = id;
  pattern.width = pattern.height = Length::inches(6);
  for (const std::string& name : slots) {
    block::Slot slot;
    slot.name = name;
    pattern.slots.push_back(slot);
  }
  pattern.turns.clear();
  for (const int turn : turns) pattern.turns.push_back(Turn::quarters(turn));
  return pattern;
}

}  // namespace

block::Pattern square() {
  block::Pattern pattern = six_inches("square", {"A"}, {0});
  pattern.patches = {{0, box(0, 0, 6, 6)}};
  return pattern;
}

block::Pattern half_square() {
  block::Pattern pattern = six_inches("half square", {"A", "B"}, {0, 1, 2, 3});
  pattern.patches = {{0, {at(0, 0), at(6, 0), at(0, 6)}}, {1, {at(6, 0), at(6, 6), at(0, 6)}}};
  return pattern;
}

block::Pattern uneven_rails() {
  block::Pattern pattern = six_inches("uneven rails", {"A", "background", "B"}, {0, 1, 2, 3});
  pattern.slots[1].may_touch = true;
  pattern.patches = {{0, box(0, 0, 6, 3)}, {1, box(0, 3, 6, 4)}, {2, box(0, 4, 6, 6)}};
  return pattern;
}

block::Pattern four_patch() {
  block::Pattern pattern = six_inches("four patch", {"A", "B", "C", "D"}, {0, 1, 2, 3});
  pattern.patches = {{0, box(0, 0, 3, 3)}, {1, box(3, 0, 6, 3)}, {2, box(0, 3, 3, 6)}, {3, box(3, 3, 6, 6)}};
  return pattern;
}

block::Pattern log_cabin() {
  block::Pattern pattern =
      six_inches("log cabin", {"centre", "light 1", "dark 1", "light 2", "dark 2", "light 3", "dark 3"}, {0, 1, 2, 3});
  pattern.patches = {{0, box(2.25, 2.25, 3.75, 3.75)}};
  for (int round = 0; round < 3; ++round) {
    constexpr double kStrip = 0.75;
    const double from = 2.25 - kStrip * round, to = 6 - from;
    const int light = 2 * round + 1, dark = light + 1;
    pattern.patches.push_back({light, box(from, from - kStrip, to, from)});
    pattern.patches.push_back({light, box(to, from - kStrip, to + kStrip, to)});
    pattern.patches.push_back({dark, box(from, to, to + kStrip, to + kStrip)});
    pattern.patches.push_back({dark, box(from - kStrip, from - kStrip, from, to + kStrip)});
  }
  return pattern;
}

block::Pattern nine_patch() {
  block::Pattern pattern = six_inches("nine patch", {"A", "B"}, {0});
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 3; ++column) {
      pattern.patches.push_back({(row + column) % 2, box(2 * column, 2 * row, 2 * column + 2, 2 * row + 2)});
    }
  }
  return pattern;
}

block::Pattern pinwheel() {
  block::Pattern pattern = six_inches("pinwheel", {"A", "B"}, {0});
  const Polygon first = {at(0, 0), at(3, 0), at(3, 3)};
  const Polygon second = {at(0, 0), at(3, 3), at(0, 3)};
  for (int quarter = 0; quarter < 4; ++quarter) {
    const Length six = Length::inches(6);
    pattern.patches.push_back({0, turned(first, six, six, Turn::quarters(quarter))});
    pattern.patches.push_back({1, turned(second, six, six, Turn::quarters(quarter))});
  }
  return pattern;
}

block::Pattern plain_rails() {
  block::Pattern pattern = six_inches("rails", {"A", "B", "C"}, {0, 1});
  pattern.patches = {{0, box(0, 0, 6, 2)}, {1, box(0, 2, 6, 4)}, {2, box(0, 4, 6, 6)}};
  return pattern;
}

block::Pattern pieced(block::Pattern pattern) {
  const int patches = static_cast<int>(pattern.patches.size());
  for (int k = 0; k + 1 < patches; ++k) {
    const block::Unit before = {k == 0 ? block::Unit::Kind::patch : block::Unit::Kind::step, std::max(0, k - 1)};
    const block::Unit next = {block::Unit::Kind::patch, k + 1};
    block::Pressing press{block::Pressing::Kind::toward, k % 3 == 0 ? next : before};
    if (k % 5 == 4) press = {};
    pattern.piecing.push_back({{before, next}, press});
  }
  return pattern;
}

}  // namespace farflung::support
