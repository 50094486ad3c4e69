// The pieces that are cut from a print, beside the hatching that they have on its plan. For the sources of this module
// only.
#pragma once

#include "sheet/flow.hpp"

namespace farflung::sheet {

/// Every piece that the prints of a group are cut into: its letter, how many, what for, how its size is worked out.
/// Many stand in two columns, so that two prints find room on a page.
void add_wanted(Flow& flow, const cloth::CuttingGroup& group);

/// How much of a page that takes.
double wanted_height(const Flow& flow, const cloth::CuttingGroup& group);

}  // namespace farflung::sheet
