// The printed page that makes photographs true to size and colour: where everything is on it, and finding it again.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "photo/balance.hpp"
#include "photo/picture.hpp"

namespace farflung::photo {

/// A rectangle on the sheet, in inches from its middle, x right, y down. The same on Letter and A4.
struct SheetBox {
  double left = 0, top = 0, width = 0, height = 0;
};

/// A square mark of 6 x 6 cells, the outer ones black; the white round it of one cell's width must stay empty.
struct SheetMark {
  int id = 0;
  SheetBox box;
  std::array<std::array<bool, 6>, 6> black{};  ///< row by row
};

/// Everything that is printed on the sheet, besides its words.
struct SheetPlan {
  std::vector<SheetMark> marks;
  SheetBox window;  ///< cut out, to lay over cloth; or a place to lay cloth on
  SheetBox inch;    ///< a line of one inch along its top edge
  SheetBox five_centimetres;
  double least_width = 7.27, least_height = 10;  ///< what a printer must be able to print on
};

/// The marks are of OpenCV's dictionary of 4 x 4 bits, ids 0 to 9; they read at any turn, and all are different.
const SheetPlan& sheet_plan();

/// The sheet as it lies in a picture.
struct SheetSeen {
  std::array<double, 9> picture_from_sheet{};  ///< homography, row by row: pixels from inches
  int marks = 0;                               ///< how many of its marks are seen

  std::array<double, 2> picture(double x, double y) const;
  std::array<double, 2> sheet(double column, double row) const;
};

/// Needs two of its marks, sharp enough to read.
std::optional<SheetSeen> find_sheet(const Picture& picture);

/// Whether a pale rectangle at `corners` is the sheet, its marks too small or blurred to read: by how their dark places
/// lie on Letter or A4, at any turn.
std::optional<SheetSeen> sheet_within(const Picture& picture, const Corners& corners);

/// What the sheet says of the light: its white paper wherever it shows round the marks, and its black ink.
std::vector<KnownColour> sheet_colours(const Picture& picture, const SheetSeen& sheet);

/// CIELAB (D65) of the white of office paper and of printed black: what is in most homes is within 2 of it.
constexpr colour::Lab kPaperWhite = {94.3, 0.3, -1.2};
constexpr colour::Lab kPrintedBlack = {21.9, 0, 0};

}  // namespace farflung::photo
