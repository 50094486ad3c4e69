#include "arrange/lattice.hpp"

#include <algorithm>
#include <map>
#include <numeric>

namespace farflung::arrange {
namespace {

/// Places of one list, by what `of` says of each; longest list first, then in the order of their keys.
std::vector<std::vector<int>> grouped(const std::vector<int>& of) {
  std::map<int, std::vector<int>> groups;
  for (int k = 0; k < static_cast<int>(of.size()); ++k) groups[of[k]].push_back(k);
  std::vector<std::vector<int>> lists;
  for (auto& [key, list] : groups) {
    if (key != kNone) lists.push_back(std::move(list));
  }
  std::stable_sort(lists.begin(), lists.end(), [](const auto& a, const auto& b) { return a.size() > b.size(); });
  return lists;
}

}  // namespace

std::vector<Parting> lattice_partings(int rows, int columns, int classes) {
  std::vector<Parting> partings;
  for (int rise = 1; rise <= classes; ++rise) {
    if (classes % rise != 0) continue;
    const int step = classes / rise;
    for (int shift = 0; shift < step; ++shift) {
      Parting parting;
      for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
          const int across = (column - shift * (row / rise)) % step;
          parting.push_back((row % rise) * step + (across + step) % step);
        }
      }
      partings.push_back(std::move(parting));
    }
  }
  return partings;
}

std::vector<Held> lattice_start(const Parting& parting, const std::vector<int>& print) {
  std::vector<Held> held(parting.size());
  std::vector<bool> used(print.size(), false);
  const auto classes = grouped(parting);
  const auto prints = grouped(print);
  for (std::size_t k = 0; k < std::min(classes.size(), prints.size()); ++k) {
    for (std::size_t i = 0; i < std::min(classes[k].size(), prints[k].size()); ++i) {
      held[classes[k][i]] = {prints[k][i], 0};
      used[prints[k][i]] = true;
    }
  }
  std::size_t left = 0;
  for (Held& each : held) {
    if (each.block != kNone) continue;
    while (used[left]) ++left;
    each.block = static_cast<int>(left);
    used[left] = true;
  }
  return held;
}

}  // namespace farflung::arrange
