// All that can be printed for a quilt, by name.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "draw/picture.hpp"
#include "sheet/book.hpp"

namespace farflung::sheet {

/// One sheet that can be asked for.
struct Kind {
  const char* name;  ///< as --only takes it: "map"
  const char* says;  ///< "where each block hangs"
  std::vector<Page> (*make)(const Book& book);
  bool workroom = false;  ///< made from cloth::Workroom
};

/// In the order in which they are bound.
std::span<const Kind> kinds();

/// Left as it is: every sheet, on Letter, for a right-handed cutter.
struct Order {
  Paper paper = letter();
  std::vector<std::string> only;           ///< names of kinds; empty: all of them
  std::vector<draw::CellMark> marks = {};  ///< for the placement map
  cloth::WorkroomOptions workroom = {};
  bool left_handed = false;  ///< cutting plans start from the right edge
};

/// The pages that were asked for, numbered; some of them late, to be drawn by display_of one at a time. A name that is
/// no kind's is a problem, with the names that are. The quilt must outlive the pages.
Result<std::vector<Page>> sheaf_of(const quilt::Quilt& quilt, const Order& order);

/// The same, every page drawn.
Result<std::vector<Page>> pages_of(const quilt::Quilt& quilt, const Order& order);

/// The same as a PDF.
///
///   auto bytes = sheet::pdf_of(quilt, swatches, {.paper = sheet::a4(), .only = {"map", "key"}});
Result<std::string> pdf_of(const quilt::Quilt& quilt, const draw::Swatches& swatches, const Order& order);

}  // namespace farflung::sheet
