// Small quilts for the tests of this folder.
#pragma once

#include <string>
#include <vector>

#include "cloth/ruler.hpp"
#include "quilt/quilt.hpp"

namespace farflung::cloth {

inline Length in(double inches) { return Length::inches(inches); }
inline const Length kQuarter = in(0.25);
constexpr Ruler kEighths = Ruler::eighths;
inline Length mm(double millimetres) { return Length::millimetres(millimetres); }

inline Polygon corners(std::initializer_list<std::pair<double, double>> points) {
  Polygon polygon;
  for (auto [x, y] : points) polygon.push_back({in(x), in(y)});
  return polygon;
}

inline block::Pattern pattern_of(const std::string& id, double size, const std::vector<std::string>& slots,
                                 const std::vector<std::pair<int, Polygon>>& patches) {
  block::Pattern pattern;
  pattern.id = pattern.name = id;
  pattern.width = pattern.height = in(size);
  pattern.turns = {Turn(), Turn::quarters(1), Turn::quarters(2), Turn::quarters(3)};
  for (const std::string& slot : slots) pattern.slots.push_back({slot, block::kNone, false});
  for (const auto& [slot, polygon] : patches) pattern.patches.push_back({slot, polygon});
  return pattern;
}

inline block::Pattern plain_square(double size) {
  return pattern_of("square", size, {"A"}, {{0, rectangle(in(0), in(0), in(size), in(size))}});
}

/// 9 in: A 9 x 4, background 9 x 1, B 9 x 4.
inline block::Pattern uneven_rails() {
  return pattern_of("rails", 9, {"A", "B", "background"},
                    {{0, rectangle(in(0), in(0), in(9), in(4))},
                     {2, rectangle(in(0), in(4), in(9), in(1))},
                     {1, rectangle(in(0), in(5), in(9), in(4))}});
}

inline block::Pattern half_squares(double size) {
  return pattern_of("half", size, {"A", "B"},
                    {{0, corners({{0, 0}, {size, 0}, {0, size}})}, {1, corners({{size, 0}, {size, size}, {0, size}})}});
}

inline block::Pattern hourglass(double size) {
  const double half = size / 2;
  return pattern_of("hourglass", size, {"A", "B"},
                    {{0, corners({{0, 0}, {size, 0}, {half, half}})},
                     {1, corners({{size, 0}, {size, size}, {half, half}})},
                     {0, corners({{size, size}, {0, size}, {half, half}})},
                     {1, corners({{0, size}, {0, 0}, {half, half}})}});
}

/// Two geese of 4 x 2, one above the other.
inline block::Pattern two_geese() {
  return pattern_of("geese", 4, {"goose", "sky"},
                    {{0, corners({{0, 2}, {2, 0}, {4, 2}})},
                     {1, corners({{0, 0}, {2, 0}, {0, 2}})},
                     {1, corners({{2, 0}, {4, 0}, {4, 2}})},
                     {0, corners({{0, 4}, {2, 2}, {4, 4}})},
                     {1, corners({{0, 2}, {2, 2}, {0, 4}})},
                     {1, corners({{2, 2}, {4, 2}, {4, 4}})}});
}

inline block::Pattern corner_cut(double size, double corner) {
  const double s = size, c = corner;
  return pattern_of("snow", size, {"A", "B"},
                    {{0, corners({{c, 0}, {s - c, 0}, {s, c}, {s, s - c}, {s - c, s}, {c, s}, {0, s - c}, {0, c}})},
                     {1, corners({{0, 0}, {c, 0}, {0, c}})},
                     {1, corners({{s - c, 0}, {s, 0}, {s, c}})},
                     {1, corners({{s, s - c}, {s, s}, {s - c, s}})},
                     {1, corners({{0, s - c}, {c, s}, {0, s}})}});
}

inline block::Pattern nine_patch(double size) {
  const double third = size / 3;
  std::vector<std::pair<int, Polygon>> patches;
  for (int i = 0; i < 9; ++i) {
    patches.emplace_back(i % 2, rectangle(in(i % 3 * third), in(i / 3 * third), in(third), in(third)));
  }
  return pattern_of("nine", size, {"A", "B"}, patches);
}

/// Blocks of one pattern in a straight setting, their slots dealt by rotation over the prints.
inline quilt::Quilt quilt_of(block::Pattern pattern, int rows, int columns, int prints,
                             setting::Setting::Kind kind = setting::Setting::Kind::straight) {
  quilt::Quilt quilt;
  for (int i = 0; i < prints; ++i) {
    quilt.prints.emplace_back();
    quilt.prints.back().id = "P" + std::to_string(i + 1);
    quilt.prints.back().name = std::vector<std::string>{"Kelp", "Foghorn", "Buoy", "Gannet", "Skerry", "Tern"}[i % 6];
  }
  print::give_codes(quilt.prints);
  quilt.patterns = {std::move(pattern)};
  quilt.setting.kind = kind;
  quilt.setting.rows = rows;
  quilt.setting.columns = columns;
  quilt.layout = setting::empty_arrangement(quilt.setting);
  const int slots = static_cast<int>(quilt.patterns[0].slots.size());
  for (std::size_t i = 0; i < quilt.layout.block.size(); ++i) {
    block::Block block;
    block.id = "B" + std::to_string(i + 1);
    for (int slot = 0; slot < slots; ++slot) block.prints.push_back((static_cast<int>(i) + slot) % prints);
    quilt.blocks.push_back(block);
    quilt.layout.block[i] = static_cast<int>(i);
  }
  return quilt;
}

inline print::Cloth fat_quarter(int count = 1) { return {"fat quarter", in(20), in(17.5), count, "", std::nullopt}; }
inline print::Cloth yardage(double length) { return {"yardage", in(40), in(length), 1, "", std::nullopt}; }

}  // namespace farflung::cloth
