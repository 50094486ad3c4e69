// The printed page that makes photographs true to size and colour: where everything is on it, and finding it again.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "photo/balance_fit.hpp"
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

/// A grey made of upright black lines on the paper's white. How dark it is depends on how wide lines come out alone,
/// not on how a printer mixes greys; screens of one blackness and different pitches tell that width.
struct SheetScreen {
  SheetBox box;
  double black = 0;  ///< of each pitch, the share that is line; the first line begins at the box's left side
  double pitch = 0;  ///< inches from line to line

  /// The black lines, from left to right.
  std::vector<SheetBox> lines() const;
};

/// Everything that is printed on the sheet, besides its words.
struct SheetPlan {
  std::vector<SheetMark> marks;
  std::vector<SheetScreen> screens;  ///< tell a camera's curve
  SheetBox window;                   ///< cut out, to lay over cloth; or a place to lay cloth on
  SheetBox words;                    ///< of the window, where it is printed what the sheet is for
  SheetBox inch;                     ///< a line of one inch along its top edge
  SheetBox five_centimetres;
  double least_width = 7.27, least_height = 10;  ///< what a printer must be able to print on

  /// Every black box of the marks and screens.
  std::vector<SheetBox> black() const;
};

/// The marks are of OpenCV's dictionary of 4 x 4 bits, ids 0 to 9; they read at any turn, and all are different.
const SheetPlan& sheet_plan();

/// The sheet as it lies in a picture.
struct SheetSeen {
  std::array<double, 9> picture_from_sheet{};  ///< homography, row by row: pixels from inches
  int marks = 0;                               ///< how many of its marks are seen

  /// Between inches from the sheet's middle and pixels of the picture, both ways.
  std::array<double, 2> picture(double x, double y) const;
  std::array<double, 2> sheet(double column, double row) const;
};

/// Needs two of its marks, sharp enough to read.
std::optional<SheetSeen> find_sheet(const Picture& picture);

/// Whether a pale rectangle at `corners` is the sheet, its marks too small or blurred to read: by how their dark places
/// lie on Letter or A4, at any turn.
std::optional<SheetSeen> sheet_within(const Picture& picture, const Corners& corners);

/// What the sheet says of the light: its white paper wherever it shows round the marks, its screens and its ink.
Evidence sheet_colours(const Picture& picture, const SheetSeen& sheet);

}  // namespace farflung::photo
