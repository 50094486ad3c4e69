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

std::size_t count_unsure(const wall::WallRead& read);
/// Whether so many places are not sure that the blocks may not lie where they were looked for.
bool mostly_unsure(const wall::WallRead& read);
/// Whether more than half of the places are not sure: then nothing that follows from them is worth a step to the wall.
bool hardly_read(const wall::WallRead& read);

/// What the wall was taken to be.
enum class Taken {
  blocks,            ///< blocks side by side
  top,               ///< one sewn top, as it was said to be
  top_unasked,       ///< one sewn top, since it reads better so
  blocks_after_all,  ///< blocks side by side; as one sewn top it reads no better
};

/// "taken_as", which is "blocks" or "top", and whether it was "tried_as_top".
void add_taken(Report& report, Taken taken);
/// Where it was taken for a sewn top unasked, that; else "".
std::string taken_words(Taken taken);

/// How many places were read, are not as planned, are not sure; then a line for each difference and each that is not
/// sure. Of a wall that could hardly be read first that, and of its differences those alone that are sure. That it was
/// taken for a sewn top unasked stands before all.
std::string words_of(const quilt::Quilt& quilt, const setting::Plan& plan, const wall::WallRead& read,
                     Taken taken = Taken::blocks);
/// "cells", "differs" and "missing"; "taken_as", which is "blocks" or "top", and whether it was "tried_as_top";
/// "hardly_read"; what it "says" where it could be no more than hardly read or was taken for a sewn top unasked.
void add_wall_read(Report& report, const quilt::Quilt& quilt, const setting::Plan& plan, const wall::WallRead& read,
                   Taken taken = Taken::blocks);

/// Over what was read: what is not as planned, and what is unsure; where it could hardly be read, what is unsure alone.
std::vector<draw::CellMark> marks_on_read(const quilt::Quilt& quilt, const setting::Plan& plan,
                                          const wall::WallRead& read);
/// Over the plan: the cells that are wrong, each with where its block is now.
std::vector<draw::CellMark> marks_on_plan(const quilt::Quilt& quilt, const setting::Plan& plan,
                                          const wall::WallRead& read);

}  // namespace farflung::job
