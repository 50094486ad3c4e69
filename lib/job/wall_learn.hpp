// The blocks themselves from photographs of the wall. For the sources of this module only.
#pragma once

#include <string>
#include <vector>

#include "job/open_quilt.hpp"
#include "job/wall.hpp"
#include "wall/read.hpp"

namespace farflung::job {

struct Photographs {
  std::vector<wall::Section> sections;
  std::vector<double> full;  ///< by photograph: pixels of the file to one of the picture
};

Report corners_json(const photo::Corners& corners);

/// `answer` holds what went wrong so far.
Outcome learn_from_wall(const Wall& options, project::Document& document, const Photographs& taken,
                        const std::vector<photo::Picture>& cloth, Answer answer);

}  // namespace farflung::job
