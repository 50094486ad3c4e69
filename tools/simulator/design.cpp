#include "simulator/design.hpp"

#include <algorithm>
#include <cassert>

namespace farflung::simulator {

const std::vector<Design>& designs() {
  static const std::vector<Design> kDesigns = [] {
    std::vector<Design> all;
    for (const auto& family : {floral_designs(), dot_designs(), stripe_designs(), check_designs(), sea_designs(),
                               dyed_designs(), geometric_designs(), tonal_designs()}) {
      all.insert(all.end(), family.begin(), family.end());
    }
    return all;
  }();
  return kDesigns;
}

const Design& design_named(const std::string& name) {
  const auto found =
      std::find_if(designs().begin(), designs().end(), [&](const Design& design) { return design.name == name; });
  assert(found != designs().end() && "no such design");
  return *found;
}

}  // namespace farflung::simulator
