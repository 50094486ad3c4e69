// What her hands do at the wall: two blocks, or two sewn units, change places, or one turns where it hangs.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::swap {

using quilt::kNone;

/// Where one block of a sewn unit comes to lie.
struct Place {
  int cell = 0, from = 0;
  Turn turn;  ///< afterwards
  friend bool operator==(const Place&, const Place&) = default;
};

/// Two blocks change places; the turns are those of the two cells afterwards. With a == b the block turns where it
/// hangs. Where what is sewn moves, a and b are the first cells of the two units.
struct Step {
  int a = 0, b = 0;  ///< cells
  Turn turn_a, turn_b;
  std::vector<Place> whole = {};  ///< of sewn units, every block; else empty

  bool turns_only() const { return a == b; }
  friend bool operator==(const Step&, const Step&) = default;
};

/// The work of a step in half swaps: 2, or 1 where a block only turns. A turn on the way in a swap is free.
inline int half_swaps(const Step& step) { return step.turns_only() ? 1 : 2; }
/// Of all the steps.
int half_swaps(const std::vector<Step>& steps);

/// Makes the step in a layout of cells: blocks and turns change, what is kept is not looked at.
void make(const Step& step, setting::Arrangement& layout);

/// By block: equal numbers for blocks of equal make-up, which nobody could tell apart: the same pattern and prints,
/// pressed and cut the same way, sewn or not.
std::vector<int> make_ups(const quilt::Quilt& quilt);

}  // namespace farflung::swap
