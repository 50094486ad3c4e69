// What could still be mended: the swap that takes an accent out of line, and what each kept cell costs.
#pragma once

#include <optional>
#include <vector>

#include "quilt/quilt.hpp"
#include "score/explain.hpp"

namespace farflung::arrange {

/// Two cells whose blocks change places, each block in the turn said.
struct MendingSwap {
  int cell_a = 0, cell_b = 0;
  Turn turn_a, turn_b;  ///< of the blocks that then lie in cell_a and cell_b
  double F = 0;         ///< how much F rises (or, below 0, falls)
};

/// An accent where it draws the eye too much, and the swap that mends it most cheaply without one more touch, where one
/// swap can. A swap mends where it leaves fewer accents on centre lines and fewer pairs of an accent's copies in line.
struct AccentAdvice {
  score::AccentInLine accent;
  std::optional<MendingSwap> mend;
};

/// How much keeping a cell costs: how far F would fall were its block free, found by going down from the layout as it
/// is. What touches would be saved comes first.
struct KeptCost {
  int cell = 0;
  int touches = 0;  ///< saved
  double F = 0;     ///< by how much F would fall; at equal touches never below 0
};

/// Of a quilt that has passed problems_of.
std::vector<AccentAdvice> accent_advice(const quilt::Quilt& quilt);
/// Of every kept cell that holds a block, in the plan's order. The same quilt gives the same costs.
std::vector<KeptCost> kept_costs(const quilt::Quilt& quilt);

}  // namespace farflung::arrange
