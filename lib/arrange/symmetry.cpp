#include "arrange/symmetry.hpp"

#include <numeric>

namespace farflung::arrange {
namespace {

bool leaves(const score::Kernel& kernel, const Symmetry& map) {
  const int n = kernel.places();
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < i; ++j) {
      if (kernel.at(map[i], map[j]) != kernel.at(i, j)) return false;
    }
  }
  return true;
}

template <typename To>
Symmetry mapped(int rows, int columns, To to) {
  Symmetry map;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) map.push_back(to(row, column));
  }
  return map;
}

/// Every map of `all`, and after each of them `next` once, twice ... up to `order` - 1 times.
std::vector<Symmetry> followed_by(const std::vector<Symmetry>& all, const Symmetry& next, int order) {
  std::vector<Symmetry> more;
  for (const Symmetry& first : all) {
    Symmetry map = first;
    for (int k = 0; k < order; ++k) {
      more.push_back(map);
      for (int& place : map) place = next[place];
    }
  }
  return more;
}

}  // namespace

Symmetry identity(int places) {
  Symmetry map(places);
  std::iota(map.begin(), map.end(), 0);
  return map;
}

std::vector<Symmetry> symmetries_of(const score::Kernel& kernel, int rows, int columns) {
  const auto at = [columns](int row, int column) { return row * columns + column; };
  std::vector<Symmetry> all = {identity(kernel.places())};
  const auto take = [&](const Symmetry& map, int order) {
    if (order > 1 && leaves(kernel, map)) all = followed_by(all, map, order);
  };
  if (rows == columns) take(mapped(rows, columns, [&](int r, int c) { return at(c, r); }), 2);
  take(mapped(rows, columns, [&](int r, int c) { return at(rows - 1 - r, c); }), rows > 1 ? 2 : 1);
  take(mapped(rows, columns, [&](int r, int c) { return at(r, columns - 1 - c); }), columns > 1 ? 2 : 1);
  take(mapped(rows, columns, [&](int r, int c) { return at((r + 1) % rows, c); }), rows > 2 ? rows : 1);
  take(mapped(rows, columns, [&](int r, int c) { return at(r, (c + 1) % columns); }), columns > 2 ? columns : 1);
  return all;
}

}  // namespace farflung::arrange
