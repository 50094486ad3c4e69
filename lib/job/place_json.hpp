// A place of a quilt in reports. For the sources of this module only.
#pragma once

#include "job/open_quilt.hpp"
#include "quilt/quilt.hpp"
#include "setting/plan.hpp"

namespace farflung::job {

/// [row, column], from 0; null for none.
inline Report place_json(const setting::Plan& plan, int cell) {
  if (cell == quilt::kNone) return nullptr;
  return {plan.cells[cell].row, plan.cells[cell].column};
}

}  // namespace farflung::job
