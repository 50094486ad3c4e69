// Reading the real wall: what hangs where, what differs from the plan, and taking it as the layout.
#pragma once

#include <string>
#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt, its layout the plan that the wall is held against.
struct Wall {
  std::string folder;
  std::vector<std::string> photographs;  ///< one of the whole wall, or one of each section
  /// One for each photograph, or none at all. Corners: x,y,x,y,x,y,x,y in pixels of the upright photograph, clockwise
  /// from the quilt's own top left, about all the blocks it shows. Rows and columns: "1-4" or "3", from 1.
  std::vector<std::string> corners, rows, columns;
  bool top = false;     ///< a sewn top, sashing and borders included; else blocks or patches side by side, or such a
                        ///< top where one photograph shows all of it, no corners are given and it reads better so
  bool accept = false;  ///< what was read becomes the layout, as one version
  std::string output;   ///< what was read: .png or .svg a picture, .pdf the placement map; empty: none
  std::string plan_output;  ///< likewise the plan, the wrong cells marked
  std::string paper;        ///< "letter" or "a4"; empty: as the quilt is measured
  bool learn = false;       ///< nobody wrote the blocks down: they are made from what the photographs show
  std::string
      pattern;     ///< learning: the blocks' pattern, by id or name; empty: the quilt's only one, or each cell's own
  int prints = 0;  ///< learning without any print: how many there are; 0: as many as look different
  bool force = false;  ///< outputs that are there may be replaced
};

/// Words and JSON say cell by cell what differs, and by which swaps the wall comes to hang as planned; where more than
/// half of the places are not sure, that it could hardly be read, and no swaps. Nothing is changed unless asked to
/// accept; promise_kept is false where a reading is accepted of which more than a third is not sure. Learning writes
/// the blocks and their layout into a quilt that has no blocks; into another, or where more than half of the blocks are
/// not sure (promise_kept is false then), only where it is asked to accept.
Outcome wall(const Wall& asked, const Watch& watch);

}  // namespace farflung::job
