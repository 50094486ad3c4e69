// From blocks to a top: rows or sections, what lies in the stack, which edge is sewn, what follows.
#pragma once

#include <string>
#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::cloth {

/// One thing in a row, in the order of sewing.
struct RowPlace {
  enum class Kind { block, empty, filler } kind = Kind::block;
  int cell = -1;         ///< of blocks and empty cells
  int frame_patch = -1;  ///< of fillers: half blocks, setting triangles; index into Plan::frame
  std::string name;      ///< "R1 C3", "setting triangle", "half block"
};

/// A row as it is sewn: on point it runs diagonally, from its upper left end down to the right.
struct SewingRow {
  std::string name;  ///< "row 1", "diagonal row 1", "corner"
  std::vector<RowPlace> places;
  std::vector<int> sashes;         ///< that lie in the row, between its places or at its ends; index into Plan::frame
  std::vector<std::string> seams;  ///< "right edge of R1 C1 to the left edge of R1 C2", one fewer than places
  std::string stack;               ///< how the stack is picked up and put back
  std::string press;               ///< "press the seams to the left"; empty where there is nothing to press
};

/// A part of a straight top that is sewn by itself, then joined to its neighbours.
struct Section {
  std::string name;  ///< "section 1 (R1 C1 to R3 C3)"
  /// From 0, the last included.
  int first_row = 0, last_row = 0, first_column = 0, last_column = 0;
  std::vector<int> cells;
};

/// How blocks become a top: rows first, or sections, then all joined.
struct SewingOrder {
  bool diagonal = false;
  std::vector<SewingRow> rows;     ///< in the order in which they are joined; on point the corners last
  std::vector<Section> sections;   ///< straight settings only
  std::vector<std::string> steps;  ///< rows, then rows to rows, sashing, corners
};

/// Guarantees: every cell and every filler of the frame stands in exactly one row. `section_side` is the most rows or
/// columns of a section.
SewingOrder sewing_order(const quilt::Quilt& quilt, int section_side = 4);

}  // namespace farflung::cloth
