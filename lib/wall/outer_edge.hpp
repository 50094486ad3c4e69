// Where the outer edge of what hangs on a wall itself is seen, beside its shadow and what lies near it.
#pragma once

#include "photo/picture.hpp"

namespace farflung::wall {

/// An outline, clockwise in pixels of the photograph, with each of its sides moved to the edge of cloth that is seen
/// near it: inward of a soft shadow, or of a label that hangs below, by up to a twentieth of its length. Where most of
/// a side shows no one straight edge, as blocks on point do, it stays.
photo::Corners on_own_edges(const photo::Picture& photograph, const photo::Corners& outline);

}  // namespace farflung::wall
