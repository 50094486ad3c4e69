// What of a quilt an arrangement is made for. For the sources of this module only.
#pragma once

#include <string>
#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::job {

/// The parts of the file, as a person names them, that differ between two quilts in what places, turns and prices read:
/// "layout", "prints", "setting" ... None where one layout is as good for both: titles, names, codes, binding, backing,
/// seam allowance, swatches, cloth in hand and whatever the format does not know may differ. What cloth and binding
/// have to say of the prints that are dealt is not looked at here.
std::vector<std::string> parts_arranged_otherwise(const quilt::Quilt& a, const quilt::Quilt& b);

/// `later` without the prints that were photographed in since it was `before` and that nothing is of yet: an
/// arrangement is as good without them.
quilt::Quilt without_newcomers(quilt::Quilt later, const quilt::Quilt& before);

}  // namespace farflung::job
