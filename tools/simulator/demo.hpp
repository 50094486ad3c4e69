// The lifeboat station's raffle quilt: its prints, and how they were photographed.
#pragma once

#include <string>
#include <vector>

#include "simulator/photographer.hpp"

namespace farflung::simulator {

/// Twenty prints in the order in which the photographs show them.
std::vector<Fabric> demo_fabrics();

struct DemoPhotograph {
  std::string file;
  Scene scene;  ///< its cloths in reading order
  Shot shot;
  Seed seed;
};

/// Two of six on a pale table, seven of one alone, one so close that it fills the frame.
std::vector<DemoPhotograph> demo_photographs();

}  // namespace farflung::simulator
