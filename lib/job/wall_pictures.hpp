// The wall as it was read, and the plan with the wrong cells marked, drawn. For the sources of this module only.
#pragma once

#include <string>
#include <vector>

#include "draw/cell_marks.hpp"
#include "draw/picture.hpp"
#include "job/open_quilt.hpp"
#include "sheet/paper.hpp"

namespace farflung::job {

/// What write_marked draws; everything must outlive the call.
struct MarkedTop {
  const quilt::Quilt& quilt;
  const setting::Plan& plan;
  const draw::Swatches& swatches;
  const std::vector<draw::CellMark>& marks;
  const sheet::Paper& paper;
};

/// A picture of the top (.png, .svg), or its placement map (.pdf), by the file's ending.
Result<Done> write_marked(const MarkedTop& top, const std::string& file, bool force);

}  // namespace farflung::job
