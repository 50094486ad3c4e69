// A print's outline on its photograph, laid right by hand.
#pragma once

#include <string>

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt and, in photos/, the photograph that the print was seen in.
struct Outline {
  std::string folder;
  std::string print;    ///< by its id, code or name
  std::string corners;  ///< of the cloth in the upright photograph, clockwise from its top left: "x,y,x,y,x,y,x,y"
};

/// Cuts the print's swatch anew from its photograph and measures it anew; what was told of it by hand stays. The swatch
/// before stays where it was, for undo.
Outcome outline(const Outline& wish);

}  // namespace farflung::job
