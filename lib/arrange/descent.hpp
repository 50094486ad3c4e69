// Down to where no single move betters a layout.
#pragma once

#include <functional>

#include "arrange/moves.hpp"
#include "base/rng.hpp"
#include "score/pricer.hpp"

namespace farflung::arrange {

/// Whether a change makes (touch, F) better: fewer touches, then shorter ones, then fewer broken rules, then a lesser
/// F; by more than rounding.
bool betters(const score::Price& price);

/// Tries every swap in every two forms, every turn and every replacement, and makes each that betters (touch, F), until
/// none does; where copies have to lie clear of each other, also exchanges of two prints' places. What blocks hold
/// stays as it is.
void go_down(score::Pricer& pricer, Moves& moves, const Freedom& freedom, Rng& rng, const std::function<bool()>& go_on);

}  // namespace farflung::arrange
