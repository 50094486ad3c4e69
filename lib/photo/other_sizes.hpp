// Cloths of one picture that were not cut or folded to the size that most have. Internal to photo.
#pragma once

#include <vector>

#include "photo/companions.hpp"
#include "photo/plane.hpp"

namespace farflung::photo {

/// Those of `pieces` that are plainly seen and of another size than the plane's usual one. Not among them: stripes,
/// what overlaps a usual cloth, what is as large as several usual ones that lie edge to edge, pieces that lie edge to
/// edge and make up one, and, where the usual ones hardly vary, what may be one of them in part.
std::vector<Piece> of_other_sizes(const std::vector<Piece>& pieces, const Plane& plane);

/// Whether the plane's usual size is one that pieces share: not where every fourth that is plainly seen is one of
/// `others`, nor where two are of it and a third is sure not to be, for then some would be alike by chance.
bool share_a_size(const std::vector<Piece>& pieces, const std::vector<Piece>& others, const Plane& plane);

}  // namespace farflung::photo
