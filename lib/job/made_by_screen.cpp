#include "job/made_by_screen.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <optional>

namespace farflung::job {
namespace {

constexpr int kTile = 16;            // pixels
constexpr double kLargePart = 0.15;  // a wall saved with few bytes has even tiles too, but of many colours

using Rgb = std::array<int, 3>;

Rgb at(const photo::Picture& picture, int column, int row) {
  const std::uint8_t* p = &picture.rgb[3 * (static_cast<std::size_t>(row) * picture.columns + column)];
  return {p[0], p[1], p[2]};
}

/// The colour of a tile that is of one colour, and neither white nor black.
std::optional<Rgb> colour_of_tile(const photo::Picture& picture, int left, int top) {
  const Rgb colour = at(picture, left, top);
  const auto [least, most] = std::minmax_element(colour.begin(), colour.end());
  if (*least >= 250 || *most <= 5) return std::nullopt;
  for (int row = top; row < top + kTile; ++row) {
    for (int column = left; column < left + kTile; ++column) {
      if (at(picture, column, row) != colour) return std::nullopt;
    }
  }
  return colour;
}

}  // namespace

bool made_by_screen(const photo::Picture& picture) {
  std::map<Rgb, int> tiles;
  int most = 0, all = 0;
  for (int top = 0; top + kTile <= picture.rows; top += kTile) {
    for (int left = 0; left + kTile <= picture.columns; left += kTile, ++all) {
      if (const auto colour = colour_of_tile(picture, left, top)) most = std::max(most, ++tiles[*colour]);
    }
  }
  return most > kLargePart * all;
}

}  // namespace farflung::job
