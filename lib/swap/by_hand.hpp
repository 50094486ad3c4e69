// What hangs in one cell taken to another by hand: a block, or all that it is sewn to.
#pragma once

#include <vector>

#include "base/result.hpp"
#include "swap/step.hpp"

namespace farflung::swap {

/// The block in a, with all that is sewn to it, goes where b is; what hangs there comes back in exchange, and what that
/// is sewn to comes with it. Turns travel with the blocks. One of the cells may be empty.
///
/// Problems (at the cell's name): something of it is kept by hand, would hang beyond the wall, or over itself.
///
///   const Result<Step> step = exchange(quilt, plan.cell_at(2, 0), plan.cell_at(4, 0));
///   if (step) carry_out(*step, quilt);
Result<Step> exchange(const quilt::Quilt& quilt, int a, int b);

/// All that is sewn to the block in `cell` turned half round as it hangs. Problems (at the cell's name): it is kept by
/// hand, is of a shape or holds a block that may not hang so, or looks the same.
Result<Step> half_round(const quilt::Quilt& quilt, int cell);

/// Whether the block in `cell` is sewn to others.
bool is_sewn_to_others(const quilt::Quilt& quilt, int cell);

/// Whether the block in `cell` is to stay by her own word; what is sewn to others is kept one by one without it.
bool is_kept_by_hand(const quilt::Quilt& quilt, int cell);

/// By cell, the first of all the cells that move with its block; kNone where it is sewn to nothing.
std::vector<int> sewn_together(const quilt::Quilt& quilt);

/// Makes a step in the quilt: its sewn units and their kept cells follow their blocks.
void carry_out(const Step& step, quilt::Quilt& quilt);

}  // namespace farflung::swap
