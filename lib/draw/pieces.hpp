// A quilt's patches as pieces of cloth: where each lies, of which print, from which part of the cloth it was cut.
#pragma once

#include <vector>

#include "draw/display.hpp"
#include "quilt/quilt.hpp"

namespace farflung::draw {

/// What a swatch is taken to span where nobody has said: about what a telephone sees of a folded fat quarter.
constexpr Length kAssumedSwatchWidth = Length::inches(9);

/// One patch of a block as it lies.
struct Piece {
  int patch = 0;
  int slot = 0;
  int print = block::kNone;  ///< kNone: not dealt yet
  Outline outline;           ///< inches
  Paint paint;
};

/// The patches of the block in `cell`, on the top, in inches; none where the cell is empty. The grain lies along the
/// block and turns with it; upright prints stand as they were, or will be, cut. Each piece shows a crop of its own,
/// which stays with block and patch wherever they go.
std::vector<Piece> pieces_in_cell(const quilt::Quilt& quilt, const setting::Plan& plan, int cell);

/// The same for a block by itself, so turned, its box's top left corner at the origin.
std::vector<Piece> pieces_of_block(const quilt::Quilt& quilt, int block, Turn turn);

/// A piece of the frame. Strips carry the cloth's x axis along their length, unless the print is upright.
Paint paint_of_frame(const quilt::Quilt& quilt, const setting::Plan& plan, int frame_patch);

/// Cloth of this print at true scale in inches; a pale blank where it is kNone.
Paint cloth_of(const quilt::Quilt& quilt, int print, double degrees, std::uint64_t crop);

/// The cell's place on the top, inches.
Outline outline_of_cell(const setting::Plan& plan, int cell);

}  // namespace farflung::draw
