#include "project/upgrade.hpp"

#include <cstdint>

namespace farflung::project {

const UpgradeSteps& upgrade_steps() {
  static const UpgradeSteps kSteps;
  return kSteps;
}

Result<Done> upgrade(Json& tree, const UpgradeSteps& steps) {
  if (!tree.is_object() || !tree.contains("version") || !tree["version"].is_number_integer()) return Done{};
  const auto newest = static_cast<std::int64_t>(steps.size()) + 1;
  const bool huge = tree["version"].is_number_unsigned() && tree["version"].get<std::uint64_t>() > INT64_MAX;
  const bool beyond = huge || tree["version"].get<std::int64_t>() > newest;
  if (beyond) {
    return input_problem(
        "/version",
        "is version " + tree["version"].dump() + ", this program knows versions up to " + std::to_string(newest),
        "open it with a newer Farflung");
  }
  std::int64_t version = tree["version"].get<std::int64_t>();
  for (; version >= 1 && version < newest; ++version) {
    steps[static_cast<std::size_t>(version - 1)](tree);
    tree["version"] = version + 1;
  }
  return Done{};
}

}  // namespace farflung::project
