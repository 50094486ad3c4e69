// Two ways to press each block, wishes between pairs of blocks: as many met as can be.
#pragma once

#include <optional>
#include <vector>

namespace farflung::score {

/// Two blocks whose seam ends meet: they nest where both are pressed alike, or where `differ`, where they are not.
struct PressWish {
  int a = 0, b = 0;
  bool differ = false;
};

struct PressChoice {
  std::vector<bool> other;                  ///< by block: pressed the other way
  bool exact = true;                        ///< no choice for the unpressed blocks meets more wishes, proved
  std::vector<std::vector<int>> odd_rings;  ///< blocks in a ring whose wishes cannot all be met
  std::vector<int> press_again;             ///< pressed blocks which, pressed again, let more nest
  int unmet_then = 0;                       ///< wishes still not met after that
};

/// Where the wishes among the unpressed blocks can be two-coloured, that is done, exactly; else single blocks change
/// until none betters. Rings that forbid it are named, at most one for each wish that stays unmet.
/// By block, whether it is pressed the other way: what is pressed stays, the rest so that as many wishes are met as can
/// be found.
std::vector<bool> press_unpressed(const std::vector<PressWish>& wishes,
                                  const std::vector<std::optional<bool>>& pressed);

PressChoice choose_press(const std::vector<PressWish>& wishes, const std::vector<std::optional<bool>>& pressed);

}  // namespace farflung::score
