#include "photo/backdrop.hpp"

#include <algorithm>

namespace farflung::photo {
namespace {

/// The four nodes round a place and their weights.
struct Between {
  std::array<std::size_t, 4> nodes{};
  std::array<double, 4> weights{};
};

Between between(int columns, int rows, double x, double y) {
  const double u = std::clamp((x + 1) / 2, 0.0, 1.0) * (columns - 1),
               v = std::clamp((y + 1) / 2, 0.0, 1.0) * (rows - 1);
  const int left = std::min(static_cast<int>(u), columns - 2), above = std::min(static_cast<int>(v), rows - 2);
  const double right = u - left, below = v - above;
  const auto node = [&](int column, int row) { return static_cast<std::size_t>(row) * columns + column; };
  return {{node(left, above), node(left + 1, above), node(left, above + 1), node(left + 1, above + 1)},
          {(1 - right) * (1 - below), right * (1 - below), (1 - right) * below, right * below}};
}

}  // namespace

std::array<double, 3> seen_at(const Backdrop& backdrop, double x, double y) {
  const Between at = between(backdrop.columns, backdrop.rows, x, y);
  std::array<double, 3> seen{};
  for (std::size_t i = 0; i < 4; ++i) {
    for (std::size_t c = 0; c < 3; ++c) seen[c] += at.weights[i] * backdrop.values[at.nodes[i]][c];
  }
  return seen;
}

double light_at(const LightField& field, double x, double y) {
  if (field.empty()) return 1;
  const Between at = between(field.columns, field.rows, x, y);
  double light = 0;
  for (std::size_t i = 0; i < 4; ++i) light += at.weights[i] * field.values[at.nodes[i]];
  return light;
}

}  // namespace farflung::photo
