// The lifeboat station's raffle quilt: its prints, and how they were photographed.
#pragma once

#include <vector>

#include "simulator/fabric.hpp"

namespace farflung::simulator {

/// Twenty prints in the order in which the photographs show them.
std::vector<Fabric> demo_fabrics();

}  // namespace farflung::simulator
