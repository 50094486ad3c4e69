// What was read on the wall, in words, as JSON, and as marks over a picture. For the sources of this module only.
#pragma once

#include <string>
#include <vector>

#include "draw/cell_marks.hpp"
#include "job/open_quilt.hpp"
#include "wall/read.hpp"

namespace farflung::job {

/// Where each block was seen, and which are missing from the cells that were photographed.
struct WallSeen {
  std::vector<int> cell_of;  ///< by block, of the plan; kNone: not seen
  std::vector<int> missing;  ///< blocks that are planned in a cell that was photographed and were seen nowhere
};
/// Cells that were not photographed say nothing: their blocks are neither seen nor missing.
WallSeen seen_on(const quilt::Quilt& quilt, const wall::WallRead& read);

/// Whether so many places are not sure that the blocks may not lie where they were looked for.
bool mostly_unsure(const wall::WallRead& read);
/// Whether more than half of the places are not sure: then nothing that follows from them is worth a step to the wall.
bool hardly_read(const wall::WallRead& read);

/// How many places were read, are not as planned, are not sure; then a line for each difference and each that is not
/// sure. Of a wall that could hardly be read first that, and of its differences those alone that are sure.
std::string words_of(const quilt::Quilt& quilt, const setting::Plan& plan, const wall::WallRead& read);
/// "cells", "differs" and "missing"; "hardly_read", and where it could be no more what it "says".
void add_wall_read(Report& report, const quilt::Quilt& quilt, const setting::Plan& plan, const wall::WallRead& read);

/// Over what was read: what is not as planned, and what is unsure; where it could hardly be read, what is unsure alone.
std::vector<draw::CellMark> marks_on_read(const quilt::Quilt& quilt, const setting::Plan& plan,
                                          const wall::WallRead& read);
/// Over the plan: the cells that are wrong, each with where its block is now.
std::vector<draw::CellMark> marks_on_plan(const quilt::Quilt& quilt, const setting::Plan& plan,
                                          const wall::WallRead& read);

}  // namespace farflung::job
