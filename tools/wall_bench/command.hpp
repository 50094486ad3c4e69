// What the whole command costs on a large photograph.
#pragma once

#include "wall_bench/trial.hpp"

namespace farflung::wall_bench {

struct Cost {
  double command = 0, decoding = 0;            ///< seconds by the clock
  double command_core = 0, decoding_core = 0;  ///< seconds of one core, all threads together
};

/// Writes a quilt and a photograph of its wall into a folder of its own, reads the wall as the command does, and
/// decodes the photograph alone.
Cost cost_of_command(const Wanted& wanted, Seed seed);

}  // namespace farflung::wall_bench
