// One surface seen all over a picture, and the light that this tells of.
#pragma once

#include <array>
#include <vector>

namespace farflung::photo {

/// A grid over a picture, row by row, its first and last columns and rows on the picture's rim; straight between.
template <typename Value>
struct Grid {
  int columns = 0, rows = 0;
  std::vector<Value> values;

  bool empty() const { return values.empty(); }
};

/// Encoded sRGB, 0..1, of the bare surface at each place, also where something lies on it.
using Backdrop = Grid<std::array<float, 3>>;

/// How much light falls on each place, over that in the picture's middle.
using LightField = Grid<float>;

/// (x, y) is a place in the picture, -1..1 both ways.
std::array<double, 3> seen_at(const Backdrop& backdrop, double x, double y);

/// 1 where the field is empty.
double light_at(const LightField& field, double x, double y);

}  // namespace farflung::photo
