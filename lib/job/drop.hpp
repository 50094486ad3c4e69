// Prints taken out of a quilt: a fabric photographed twice, one that stays in the cupboard. For the sources of this
// module only.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "quilt/quilt.hpp"

namespace farflung::job {

/// The quilt without the prints that are named by id, code or name. Slots that they filled wait to be dealt; all other
/// prints stay where they are. Refused, each with its reason, for a print that sewn or kept blocks hold, that a slot of
/// the pattern has in every block, or that the frame, the binding or the backing is of. Photographs and swatches stay
/// in the folder, so that undo brings the print back whole.
Result<quilt::Quilt> without_prints(const quilt::Quilt& quilt, const std::vector<std::string>& names);

/// Prints that no block holds and no part of the frame, the binding or the backing is of.
std::vector<int> idle_prints(const quilt::Quilt& quilt);

/// Blocks with a slot that waits to be dealt.
std::size_t blocks_to_deal(const quilt::Quilt& quilt);

}  // namespace farflung::job
