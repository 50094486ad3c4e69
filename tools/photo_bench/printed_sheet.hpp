// The reference sheet as somebody's printer makes it.
#pragma once

#include "simulator/paper.hpp"

namespace farflung::photo_bench {

/// On Letter paper; paper and ink are drawn by lot.
simulator::Paper printed_sheet(Seed seed);

}  // namespace farflung::photo_bench
