// How the cells of a top are cut up into the pages of the placement map. Internal to sheet.
#pragma once

#include <vector>

#include "sheet/book.hpp"

namespace farflung::sheet {

/// Points, about and within a cell of the map.
constexpr double kCellMargin = 5;
constexpr double kCaption = 15;      ///< above the block
constexpr double kArrow = 8;         ///< size of the turn arrow, and the air it stands in
constexpr double kRowNames = 28;     ///< the gutter that holds row names
constexpr double kColumnNames = 20;  ///< the band above the cells that holds those of columns
constexpr double kLegend = 16;       ///< the line at the page's foot

/// The list of prints under a block, the same under every one.
struct EntryList {
  int lines = 1, columns = 1;
  double pitch = 0;  ///< from line to line

  double height() const { return pitch * lines; }
  bool named() const { return columns == 1; }  ///< else codes alone
};

/// In a cell so wide. No entry is wider than its column.
EntryList list_within(const quilt::Quilt& quilt, double cell_width);

/// The cells of one page.
struct CellGrid {
  double width = 0, height = 0;  ///< of a cell
  double indent = 0;             ///< of rows that are one shorter
};

/// As large as the page lets so many be, in one band of columns or in several, one under another.
CellGrid grid_of(const Book& book, int columns, int rows, int bands = 1);

/// The part of a cell in which its block is drawn: below the caption, above the list, with air for the arrow.
draw::Box block_room(const draw::Box& cell, double list);

/// The first row and the first column of every page, and one past the last; pages differ by one at most.
struct MapCut {
  std::vector<int> rows, columns;
  int bands = 1;  ///< so many parts of the last rows share a page, which they would leave half empty by themselves
  /// Cells of a last column alone, which no part holds for the same reason: gathered, `at_once` to a page, two abreast.
  std::vector<int> gathered;
  std::size_t at_once = 1;

  std::size_t pages() const;
};

/// The fewest pages on which every patch carries its code at full size, where that can be without a book of them; else
/// as many places to a page as can be told apart.
MapCut cut_of(const Book& book);

}  // namespace farflung::sheet
