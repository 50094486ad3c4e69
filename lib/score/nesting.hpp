// Seam ends that meet across a join: whether they nest, and how to press so that they do.
#pragma once

#include <optional>
#include <vector>

#include "quilt/quilt.hpp"
#include "score/seam_ends.hpp"

namespace farflung::score {

/// Two seam ends at one place on the join between two blocks.
struct EndMeeting {
  int cell_a = 0, cell_b = 0;
  Point at;                   ///< on the top
  SeamEnd::Way way_a, way_b;  ///< pressed as drawn
};

/// How the seams of a layout meet, and what pressing makes of it.
struct Nesting {
  std::vector<EndMeeting> meetings;
  int open = 0;    ///< meetings where an end is pressed open: they lie flat and never nest
  int nested = 0;  ///< of the others, as pressed: chosen for blocks that are not pressed yet
  int unnested = 0;

  /// By block: how to press it. What is pressed stays; what is not gets the way with which most ends nest.
  std::vector<std::optional<block::Block::Press>> press;
  bool exact = true;  ///< the unpressed blocks leave as few ends unnested as can be, proved
  /// Rings of cells whose ends cannot all nest, however their blocks are pressed.
  std::vector<std::vector<int>> odd_rings;

  /// Pressed blocks which, pressed the other way, would let the rest nest; and what would still not.
  std::vector<int> press_again;
  int unnested_then = 0;

  bool nothing_to_nest() const { return meetings.empty(); }
};

/// Of the layout of a quilt: seam ends meet where blocks meet edge to edge, at the same place within kSnap. With
/// sashing no block meets another and there is nothing to nest: all is pressed to the sash.
Nesting nesting_of(const quilt::Quilt& quilt);

/// The quilt with every block that is not pressed yet set to be pressed so that the most ends nest. As it was where no
/// ends meet.
quilt::Quilt pressed_to_nest(quilt::Quilt quilt);

}  // namespace farflung::score
