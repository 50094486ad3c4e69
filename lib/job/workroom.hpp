// How the cloth is to be cut, as it is asked for on the command line: shared by all that cuts and sews.
#pragma once

#include <string>

#include "base/result.hpp"
#include "cloth/workroom.hpp"

namespace farflung::job {

/// Words stand for the options of cloth::CutOptions, PlanOptions and YardageOptions that they are named like.
struct WorkroomWish {
  int kits = 0;                         ///< for a class or a shop; 0: none
  bool spares = false;                  ///< look hard for spare blocks in what is left over
  bool prewashed = false;               ///< the cloth will be washed first: what is bought allows for its shrinking
  bool sixteenths = false;              ///< cut to 1/16 in, not 1/8
  bool lengthwise = false;              ///< borders in one piece along the selvage
  int layers = 4;                       ///< comfortable under one cutter at once
  std::string geese = "plain";          ///< "plain", "four at once" or "flip"
  std::string corners = "triangle";     ///< "triangle" or "flip"
  std::string backing_seams = "least";  ///< "least", "across" or "along"
};

/// The words as the workroom's options for a quilt in these units; a word that is none of those above is a problem.
Result<cloth::WorkroomOptions> workroom_options(const WorkroomWish& wish, quilt::Units units);

}  // namespace farflung::job
