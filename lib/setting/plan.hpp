// The geometry of a top: where its cells lie and what frames them.
#pragma once

#include <string>
#include <vector>

#include "base/plane.hpp"
#include "setting/setting.hpp"

namespace farflung::setting {

/// One place in the setting. R3 C5 is row 2, column 4 here: rows and columns count from 0 in code.
struct Cell {
  int row = 0, column = 0;
  Point centre;         ///< on the top; sub-nanometre parts of on-point centres are rounded
  int pattern = kNone;  ///< the pattern that belongs here, kNone: any
};

/// "R3 C5": rows and columns as people count them.
std::string cell_name(const Cell& cell);

/// A piece of the top that is no block's: all are may_touch.
struct FramePatch {
  enum class Role { sashing, cornerstone, filler, border, border_corner };

  Role role = Role::sashing;
  int part = 0;  ///< for borders: which one, from the inside
  int print = kNone;
  Polygon polygon;  ///< on the top
};

/// Where everything lies, borders included: (0, 0) is the top left corner of the finished top.
struct Plan {
  Length block_width, block_height;  ///< finished
  Length width, height;              ///< of the top, borders included
  double pitch = 0;                  ///< inches: sqrt(cell width x cell height), sashing included
  bool on_point = false;
  std::vector<Cell> cells;        ///< row by row, as the file lists them
  std::vector<FramePatch> frame;  ///< in the order they are drawn; they do not overlap

  /// A polygon of a block (its own coordinates, unturned) as it lies on the top in `cell`, turned by `turn`.
  Polygon top_from_block(const Polygon& polygon, int cell, Turn turn) const;

  /// The cell at a row and column, kNone where there is none.
  int cell_at(int row, int column) const;
};

/// The plan of a setting for blocks of this finished size. The setting must have passed problems_of.
Plan plan_of(const Setting& setting, Length block_width, Length block_height);

/// What is wrong with a setting, whatever the blocks: rows, widths, prints out of range. `at` is "/setting".
Problems problems_of(const Setting& setting, const std::vector<block::Pattern>& patterns, int prints,
                     const std::string& at);

}  // namespace farflung::setting
