// A few blocks for tests to sew: public-domain patterns written down by hand, six inches square.
#pragma once

#include "block/pattern.hpp"

namespace farflung::support {

block::Pattern square();        ///< A
block::Pattern half_square();   ///< A, B: two triangles, four turns
block::Pattern uneven_rails();  ///< A, background (may touch), B, four turns
block::Pattern four_patch();    ///< A, B, C, D, four turns
block::Pattern nine_patch();    ///< A in the corners and the middle, B between; one turn
block::Pattern pinwheel();      ///< A, B: four triangles each, one turn
block::Pattern plain_rails();   ///< A, B, C: three strips, two turns
block::Pattern log_cabin();  ///< a centre, three rounds of narrow strips, light on two sides, dark on two; seven slots

/// With steps that join its patches one after another, pressed to either side and now and then open.
block::Pattern pieced(block::Pattern pattern);

}  // namespace farflung::support
