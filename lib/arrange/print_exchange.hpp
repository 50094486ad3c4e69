// Two prints exchange places, many copies at once: where no copy alone has room to move.
#pragma once

#include <functional>

#include "arrange/moves.hpp"

namespace farflung::arrange {

/// Where copies have to lie clear of each other and blocks hold one print each: tries for every two prints each group
/// of their places that hang together by being near (A. B. Kempe, American Journal of Mathematics 2 (1879) 193-200,
/// doi:10.2307/2369235), as many of one print as of the other, and all of them where there are as many; makes the
/// exchanges that better (touch, F). Whether one did. Layouts stay clear; kept places stay as they are.
bool exchange_prints(score::Pricer& pricer, Moves& moves, const Freedom& freedom, const std::function<bool()>& go_on);

}  // namespace farflung::arrange
