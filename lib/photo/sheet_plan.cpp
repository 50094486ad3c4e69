#include <cmath>

#include "photo/reference_sheet.hpp"
#include "photo/sheet_marks.hpp"

namespace farflung::photo {
namespace {

SheetMark mark(int id, double left, double top) {
  SheetMark result{id, {left, top, kMarkSide, kMarkSide}, {}};
  cv::Mat cells;
  cv::aruco::drawMarker(mark_dictionary(), id, kMarkCells, cells, 1);
  for (int row = 0; row < kMarkCells; ++row) {
    for (int column = 0; column < kMarkCells; ++column)
      result.black[row][column] = cells.at<std::uint8_t>(row, column) < 128;
  }
  return result;
}

/// Screens in the gaps between marks, white left free in the middle of each gap. Light ones and dark ones lie on every
/// side, fine ones (whole dots of common printers) for small pictures, coarse ones that ink hardly widens.
std::vector<SheetScreen> screens() {
  constexpr double kFine = 0.02, kMiddling = 0.04, kCoarse = 0.08;
  constexpr double kAcross = 2.27, kNear = 1.24, kLow = 3.92, kOut = 3.55, kIn = 3.0, kBeside = 0.4;
  const auto above = [](double left, double black, double pitch) {
    return SheetScreen{{left, -kLow - 0.8, 0.48, 0.8}, black, pitch};
  };
  const auto below = [](double left, double black, double pitch) {
    return SheetScreen{{left, kLow, 0.48, 0.8}, black, pitch};
  };
  const auto beside = [](double left, double top, double black, double pitch) {
    return SheetScreen{{left, top, 0.48, 0.45}, black, pitch};
  };
  constexpr double kHigh = -kBeside - 0.45;
  return {above(-kAcross, 0.125, kMiddling),
          above(-kNear, 0.75, kFine),
          above(kNear - 0.48, 0.875, kMiddling),
          above(kAcross - 0.48, 0.25, kFine),
          below(-kAcross, 0.5, kFine),
          below(-kNear, 0.9375, kCoarse),
          below(kNear - 0.48, 0.75, kMiddling),
          below(kAcross - 0.48, 0.5, kMiddling),
          beside(-kOut, kHigh, 0.25, kFine),
          beside(-kIn, kHigh, 0.875, kCoarse),
          beside(-kOut, kBeside, 0.5, kCoarse),
          beside(-kIn, kBeside, 0.75, kFine),
          beside(kIn - 0.48, kHigh, 0.5, kFine),
          beside(kOut - 0.48, kHigh, 0.9375, kCoarse),
          beside(kIn - 0.48, kBeside, 0.125, kMiddling),
          beside(kOut - 0.48, kBeside, 0.875, kMiddling)};
}

SheetPlan drawn_up() {
  SheetPlan plan;
  plan.screens = screens();
  const double right = kMarksHalfWidth - kMarkSide, low = kMarksHalfHeight - kMarkSide;
  int id = 0;
  // Four down each side, one more in the middle of top and bottom.
  for (const double top :
       {-kMarksHalfHeight, -kMarksHalfHeight / 3 - kMarkSide / 2, kMarksHalfHeight / 3 - kMarkSide / 2, low}) {
    plan.marks.push_back(mark(id++, -kMarksHalfWidth, top));
    plan.marks.push_back(mark(id++, right, top));
  }
  for (const double top : {-kMarksHalfHeight, low}) plan.marks.push_back(mark(id++, -kMarkSide / 2, top));
  plan.window = {-2.2, -3.5, 4.4, 6.6};
  plan.words = {-2.2, -3.5, 4.4, 4.2};
  plan.inch = {-2.2, 3.4, 1, 0};
  plan.five_centimetres = {2.2 - 5 / 2.54, 3.4, 5 / 2.54, 0};
  return plan;
}

}  // namespace

std::vector<SheetBox> SheetScreen::lines() const {
  std::vector<SheetBox> lines;
  const int count = static_cast<int>(std::lround(box.width / pitch));
  lines.reserve(count);
  for (int i = 0; i < count; ++i) lines.push_back({box.left + i * pitch, box.top, black * pitch, box.height});
  return lines;
}

std::vector<SheetBox> SheetPlan::black() const {
  std::vector<SheetBox> boxes;
  for (const SheetMark& mark : marks) {
    const double cell = mark.box.width / kMarkCells;
    for (int row = 0; row < kMarkCells; ++row) {
      for (int column = 0; column < kMarkCells; ++column) {
        if (mark.black[row][column])
          boxes.push_back({mark.box.left + column * cell, mark.box.top + row * cell, cell, cell});
      }
    }
  }
  for (const SheetScreen& screen : screens) {
    for (const SheetBox& line : screen.lines()) boxes.push_back(line);
  }
  return boxes;
}

const SheetPlan& sheet_plan() {
  static const SheetPlan plan = drawn_up();
  return plan;
}

}  // namespace farflung::photo
