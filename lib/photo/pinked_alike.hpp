// Cloths of one bundle are pinked all or none: what teeth along all their sides together tell. Internal to photo.
#pragma once

#include <vector>

#include "photo/companions.hpp"
#include "photo/plane.hpp"

namespace farflung::photo {

/// The pitch, on the table, of teeth that run along the sides of most pieces, 0 where they do not: a wide blur leaves
/// so little of them that one side alone tells nothing, but no two prints repeat alike. `lit` is the picture.
double shared_pitch(const std::vector<Piece>& pieces, const Plane& plane, const Lit& lit);

/// The pieces with teeth of that pitch on the table: each outline, half way up them or along their tips, is laid along
/// the tips.
std::vector<Piece> along_tips(std::vector<Piece> pieces, double pitch, const Plane& plane);

}  // namespace farflung::photo
