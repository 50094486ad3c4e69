// The top as a list of what there is to draw, for a screen that draws it by itself.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// JSON, all lengths in inches on the top, (0, 0) its top left corner:
///
///   width, height, finished_size, pitch, on_point, block_width, block_height
///   prints    id, code, name, colour ("#3a6ea5"), value, swatch (its file in swatches/, empty where it has none),
///             swatch_width, upright
///   cells     row, column, name, centre [x, y], outline [[x, y], ...]
///   frame     role, print, outline, cloth: degrees, across, down
///   patterns  id, name, width, height, turns, slots, values (by slot: any, light, dark), patches: slot, outline
///             (unturned, from the block's top left corner)
///   blocks    id, pattern, prints (by patch), crops (by patch: [across, down]), sewn, cut_turn (null unless sewn)
///   layout    by cell: block (null where empty), turn, kept (by hand), sewn (the first cell of all that its block is
///             sewn to and moves with, null where it is sewn to nothing)
///   spares    blocks that no cell names
///
/// Prints, patterns and blocks are named by their place in these lists, null where there is none. A block is drawn
/// about its cell's middle, turned by 90 degrees x its turn, 45 more on point; its cloth turns with it, unless its
/// print is upright: then it stands at 0 degrees, or in a sewn block at 90 x (turn - cut_turn). across and down, 0..1,
/// say from where in the cloth a patch is cut.
Outcome drawn(const std::string& folder);

}  // namespace farflung::job
