// How many slots each print's cloth in hand can fill: what dealing prints has to keep to.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::cloth {

/// By print of the quilt, how many of the slots that are dealt its cloth in hand fills, of each slot an equal share,
/// after all else that is cut from it: sashing, borders, binding, slots that name it, blocks that are kept as they are.
/// No more than there are blocks to deal to; so many, too, for a print of which no cloth is recorded.
///
/// Never overstated: each number was laid out on the cloth and cut, the pieces of an upright print as its block is cut
/// unturned. The quilt must have passed problems_of.
std::vector<int> slots_in_hand(const quilt::Quilt& quilt);

/// The prints that are dealt and whose cloth in hand, recorded, was not found to be enough for the quilt as it is.
std::vector<int> prints_short(const quilt::Quilt& quilt);

/// The same of every print that anything is cut from, the frame, binding and backing too.
std::vector<int> all_short(const quilt::Quilt& quilt);

/// Of these, by print of `after`, those that a change left short: it asks other pieces of them and they were not short
/// before, or it changed the cloth in hand of them.
std::vector<int> newly_short(const quilt::Quilt& before, const quilt::Quilt& after);

}  // namespace farflung::cloth
