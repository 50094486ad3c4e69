// How blocks make the top, and which block lies where.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "base/turn.hpp"
#include "block/pattern.hpp"

namespace farflung::setting {

using block::kNone;

/// Strips between the blocks.
struct Sashing {
  Length width;
  int print = kNone;
  int cornerstone = kNone;  ///< its print; without one the crosswise strips run through
  bool outer = false;       ///< also around the blocks
};

/// One border; borders are listed from the inside out.
struct Border {
  enum class Corners { butted, cornerstone, mitred };  ///< butted: sides first, then top and bottom across

  Length width;
  int print = kNone;
  Corners corners = Corners::butted;
  int cornerstone = kNone;  ///< the print of the corner squares where corners is cornerstone
};

/// How blocks make the top: straight in rows, brick with every second row half a block on, on point turned by 45
/// degrees.
struct Setting {
  enum class Kind { straight, brick, on_point };

  Kind kind = Kind::straight;
  /// Rows, and cells in one of full width; on point the rows of full width alone, the shorter between them not counted.
  int rows = 0, columns = 0;
  std::vector<std::vector<int>> alternate;  ///< patterns by index, tiled over the cells; empty: any pattern anywhere
  std::optional<Sashing> sashing;
  int filler = kNone;  ///< the print of setting triangles and of brick's half blocks
  std::vector<Border> borders;
};

/// "straight", "brick", "on point": as a file says it and a person reads it.
const char* name_of(Setting::Kind kind);
/// The one that a person named; none where there is none of that name.
std::optional<Setting::Kind> setting_named(const std::string& typed);

/// How many cells each list of layout.cells has, top to bottom: straight: `rows` lists of `columns`; brick: the second,
/// fourth ... one shorter; on point: 2 x rows - 1 lists, the odd ones one shorter.
std::vector<int> cells_in_rows(const Setting& setting);

/// Which block lies in which cell. Cells are numbered row by row, as the file lists them.
struct Arrangement {
  std::vector<int> block;  ///< by cell, index into the quilt's blocks; kNone is an empty cell
  std::vector<Turn> turn;  ///< by cell
  std::vector<bool> kept;  ///< by cell: its block must stay, and stay so turned

  friend bool operator==(const Arrangement&, const Arrangement&) = default;
};

/// All cells empty, none kept.
Arrangement empty_arrangement(const Setting& setting);

}  // namespace farflung::setting
