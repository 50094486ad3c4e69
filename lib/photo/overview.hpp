// What was found, shown on the photograph itself.
#pragma once

#include <string>
#include <vector>

#include "photo/picture.hpp"

namespace farflung::photo {

/// One outline to draw and the print code that stands in it.
struct Mark {
  Corners corners{};  ///< pixels of the picture that is drawn on
  std::string code;   ///< a few characters that print in ASCII
  bool sure = true;   ///< a sure outline is a whole line, a doubtful one is dashed
};

/// A copy of `picture`, at most `longest` pixels on its longer side, with each outline and its code on a white label.
Picture overview(const Picture& picture, const std::vector<Mark>& marks, int longest = 1400);

}  // namespace farflung::photo
