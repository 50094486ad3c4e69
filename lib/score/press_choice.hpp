// Two ways to press each block, wishes between pairs of blocks: as many met as can be.
#pragma once

#include <optional>
#include <vector>

namespace farflung::score {

/// Two blocks whose seam ends meet: they nest where both are pressed alike, or where `differ`, where they are not.
struct PressWish {
  /// Blocks.
  int a = 0, b = 0;
  bool differ = false;
};

/// Blocks are numbered as the wishes number them.
struct PressChoice {
  std::vector<bool> other;                  ///< by block: pressed the other way
  bool exact = true;                        ///< no choice for the unpressed blocks meets more wishes, proved
  std::vector<std::vector<int>> odd_rings;  ///< blocks in a ring whose wishes cannot all be met
  std::vector<int> press_again;             ///< pressed blocks which, pressed again, let more nest
  int unmet_then = 0;                       ///< wishes still not met after that
};

/// By block, whether it is pressed the other way: what is pressed stays, the rest so that as many wishes are met as can
/// be. Exact where the wishes can all be met, and where the unpressed blocks lie no more than kWidestFrontier abreast;
/// else the best that a search finds. Of choices alike, blocks are pressed as drawn.
std::vector<bool> press_unpressed(const std::vector<PressWish>& wishes,
                                  const std::vector<std::optional<bool>>& pressed);

/// The same, and why not all wishes are met. Each that is not is named by the shortest ring of blocks that it closes in
/// which all other wishes are met: such a ring is odd, and however its blocks are pressed one of its wishes stays
/// unmet. A wish that closes none is held apart by blocks that are pressed.
///
/// `press_again` are as few pressed blocks as let as many wishes be met as if nothing were pressed yet.
PressChoice choose_press(const std::vector<PressWish>& wishes, const std::vector<std::optional<bool>>& pressed);

}  // namespace farflung::score
