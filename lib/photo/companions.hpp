// Cloths of one picture mostly share their size and lie in rows: what that says of those that are hard to see. Internal
// to photo.
#pragma once

#include <vector>

#include "photo/located.hpp"

namespace farflung::photo {

/// An outline and what is thought of it.
struct Piece {
  Outline outline;
  double fit = 0;         ///< 0..1: how nearly it is what was told from the surface
  bool supposed = false;  ///< its size and place are its neighbours', not seen all the way round
};

/// Of the smaller, that two cloths may seem to share.
constexpr double kOverlap = 0.12;

/// Finds what the pieces' common size leaves to be found: cloths merged with their neighbours, cut to pieces by their
/// own motifs, or hardly told from the table. What then overlaps a cloth of the common size is no cloth. Pieces of
/// other sizes stay where they are plainly seen or clear of the rest. A side that lies where the common size does not
/// have it is looked for again where it does. Where there is no common size, each piece stands as it is, but for what
/// overlaps a clearer one.
std::vector<Piece> with_companions(const std::vector<Piece>& pieces, const Ground& ground);

}  // namespace farflung::photo
