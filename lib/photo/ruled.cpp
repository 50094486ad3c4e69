#include "photo/ruled.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "base/median.hpp"

namespace farflung::photo {
namespace {

constexpr double kThin = 0.025;    ///< of the picture's longer side, that a line is wide at most
constexpr double kApart = 0.2;     ///< of how far apart lines lie, that they are wide at most
constexpr double kRim = 0.03;      ///< of the same: the rim at which lines are counted
constexpr double kLeastLines = 3;  ///< that cross the rim at a side of the picture that is ruled
constexpr int kLeastSides = 3;

/// Widths of the thin lines that a row of pixels meets; lines that its ends cut are left out.
std::vector<int> widths_met(const cv::Mat& row, int most) {
  std::vector<int> widths;
  int run = 0;
  bool begun = false;
  for (int column = 0; column < row.cols; ++column) {
    if (row.at<std::uint8_t>(column) != 0) {
      ++run;
      continue;
    }
    if (begun && run > 0 && run <= most) widths.push_back(run);
    run = 0, begun = true;
  }
  return widths;
}

/// Widths of the lines that cross one side's rim, in its rows of pixels that meet the usual number of them; none
/// where it is not ruled. `rim` lies along its rows.
std::vector<int> widths_across(const cv::Mat& rim, int most) {
  std::vector<std::vector<int>> rows;
  std::vector<double> counts;
  for (int row = 0; row < rim.rows; ++row) {
    rows.push_back(widths_met(rim.row(row), most));
    counts.push_back(static_cast<double>(rows.back().size()));
  }
  const double usual = median(counts);
  std::vector<int> widths;
  if (usual < kLeastLines) return widths;
  for (const std::vector<int>& row : rows) {
    if (static_cast<double>(row.size()) == usual) widths.insert(widths.end(), row.begin(), row.end());
  }
  if (median(widths) * usual > kApart * rim.cols) return {};
  return widths;
}

}  // namespace

cv::Mat ruled_lines(const cv::Mat& unlike) {
  const int longer = std::max(unlike.cols, unlike.rows);
  const int rim = std::max(3, static_cast<int>(kRim * longer)), most = std::max(3, static_cast<int>(kThin * longer));
  const std::array<cv::Mat, 4> sides = {unlike.rowRange(0, rim), unlike.rowRange(unlike.rows - rim, unlike.rows),
                                        unlike.colRange(0, rim).t(),
                                        unlike.colRange(unlike.cols - rim, unlike.cols).t()};
  std::vector<double> widths;
  int ruled = 0;
  for (const cv::Mat& side : sides) {
    const std::vector<int> met = widths_across(side, most);
    ruled += !met.empty();
    widths.insert(widths.end(), met.begin(), met.end());
  }
  if (ruled < kLeastSides) return {};
  // Slanted, and a little wider where they cross.
  const int wider = 2 * static_cast<int>(median(widths)) + 3;
  cv::Mat broad;
  cv::morphologyEx(unlike, broad, cv::MORPH_OPEN, cv::getStructuringElement(cv::MORPH_RECT, {wider, wider}));
  return unlike & ~broad;
}

}  // namespace farflung::photo
