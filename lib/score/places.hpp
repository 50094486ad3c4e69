// Where the blocks lie, as the score sees them: points in pitches, and the lines that could read as a stripe.
#pragma once

#include <span>
#include <vector>

#include "setting/plan.hpp"
#include "setting/setting.hpp"

namespace farflung::score {

using setting::kNone;

/// Places in a line that the eye could follow.
struct Line {
  enum class Way { row, column, falling, rising };  ///< falling: a diagonal from the top left to the bottom right

  Way way = Way::row;
  std::vector<int> places;
};

/// The cells that hold a block; holes are no cells here. Places are numbered in the order of the plan's cells.
struct Places {
  std::vector<int> cell;          ///< by place, index into the plan's cells
  std::vector<int> of_cell;       ///< by cell, its place; kNone for a hole
  std::vector<double> x, y;       ///< by place, the centre in pitches
  std::vector<int> row, column;   ///< by place, in the setting
  std::vector<int> across, down;  ///< by place, on the setting's lattice: brick and on point in half steps across
  std::vector<int> klass;         ///< by place, the pattern that shuffles into it; 0 everywhere where none alternate
  bool full_grid = false;         ///< a straight setting without a hole: place = row * columns + column
  int rows = 0, columns = 0;      ///< meant where full_grid
  std::vector<Line> lines;        ///< rows, columns and diagonals of three places or more

  int count() const { return static_cast<int>(cell.size()); }
};

/// `occupied` says of each cell of the plan whether it holds a block.
Places places_of(const setting::Setting& setting, const setting::Plan& plan, const std::vector<bool>& occupied);

}  // namespace farflung::score
