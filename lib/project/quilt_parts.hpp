// The parts of a quilt, each read from its place in the tree; what is wrong with it is added to the reading. For the
// sources of this module only.
#pragma once

#include "project/reading.hpp"

namespace farflung::project {

using quilt::kNone;

/// A print; its code stays empty where the file gives none.
print::Print print_from(Reading& reading, const Place& place);

/// Whether a pattern's lists are within limits.hpp; without this it must not be read.
bool within_limits(Reading& reading, const Place& pattern);

/// The same for all of a quilt's patterns, each and together; what is beyond is refused.
void check_patterns(Reading& reading, const Place& patterns);

/// What is left out has the default of its value; so has what cannot be read, and that is a problem besides.
block::Pattern pattern_from(Reading& reading, const Place& place);
setting::Setting setting_from(Reading& reading, const Place& place);
quilt::Binding binding_from(Reading& reading, const Place& place);
quilt::Backing backing_from(Reading& reading, const Place& place);
quilt::TestBlock test_block_from(Reading& reading, const Place& place);
quilt::Goals goals_from(const Place& place);
quilt::Gradation gradation_from(Reading& reading, const Place& place);

/// A block of one of these patterns.
block::Block block_from(Reading& reading, const Place& place, const std::vector<block::Pattern>& patterns);

/// What lies in the cells of this setting, which is within limits.
setting::Arrangement layout_from(Reading& reading, const Place& place, const setting::Setting& setting);

/// `quilt` has nothing sewn yet: what it keeps is kept by hand.
quilt::SewnUnit sewn_unit_from(Reading& reading, const Place& place, const quilt::Quilt& quilt);

}  // namespace farflung::project
