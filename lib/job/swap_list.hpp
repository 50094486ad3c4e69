// The way from one layout to another, as a list of swaps in words and JSON. For the sources of this module only.
#pragma once

#include <string>
#include <vector>

#include "job/open_quilt.hpp"
#include "swap/better.hpp"
#include "swap/fewest.hpp"

namespace farflung::job {

/// "a", "b" (row, column from 0), "turn_a", "turn_b", "touch", "F", "says"; of what is sewn "whole" too, block by
/// block.
Report step_json(const setting::Plan& plan, const swap::Made& made);

/// From quilt.layout: a heading and a line for each step; "swaps", "proven" and "plain" are put to the report. A step
/// that moves what lies in one of the `unsure` cells says that it is to be looked at first.
std::string add_way(Report& report, const quilt::Quilt& quilt, const swap::FewestReport& way,
                    const std::vector<int>& unsure = {});

}  // namespace farflung::job
