// Changes by hand, each checked like the whole file and saved as a version of its own.
#pragma once

#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// `value` is JSON; what is not JSON is taken as a text.
Outcome set_value(const std::string& folder, const std::string& pointer, const std::string& value);

/// Cells are named as people count them: "R2C5", "R2 C5", "r2c5". The turns travel with the blocks.
Outcome swap_cells(const std::string& folder, const std::string& a, const std::string& b);

/// Turns the block clockwise to the next turn that its pattern allows, or by as many quarters as told (0: the next).
Outcome turn_cell(const std::string& folder, const std::string& cell, int quarters = 0);

Outcome keep_cells(const std::string& folder, const std::vector<std::string>& cells);
Outcome free_cells(const std::string& folder, const std::vector<std::string>& cells);

Outcome undo(const std::string& folder);
Outcome redo(const std::string& folder);

}  // namespace farflung::job
