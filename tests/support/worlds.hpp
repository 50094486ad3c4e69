// The kinds of quilt that every property of the score and the arranger must hold for.
#pragma once

#include <string>
#include <vector>

#include "support/random_quilt.hpp"

namespace farflung::support {

struct World {
  std::string name;
  Wanted wanted;
};

/// One of each setting, with several patterns, spares, holes, sashing and borders among them; about twenty cells each.
std::vector<World> worlds();

}  // namespace farflung::support
