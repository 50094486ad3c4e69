// Old files are brought up step by step; newer ones are refused. For the sources of this module only.
#pragma once

#include <functional>
#include <vector>

#include "project/json.hpp"

namespace farflung::project {

/// steps[i] turns a tree of version i + 1 into one of version i + 2.
using UpgradeSteps = std::vector<std::function<void(Json&)>>;

/// The steps of the format as it stands: none yet, it is at its first version.
const UpgradeSteps& upgrade_steps();

/// Brings a tree up to version steps.size() + 1. A problem's place is a JSON pointer. A tree without a version passes:
/// the schema reports it.
Result<Done> upgrade(Json& tree, const UpgradeSteps& steps);

}  // namespace farflung::project
