#include "photo/blurred_marks.hpp"

#include <opencv2/imgproc.hpp>

#include "photo/reference_sheet.hpp"
#include "photo/sheet_marks.hpp"

namespace farflung::photo {
namespace {

constexpr int kCell = 4;                          ///< pixels of a flattened mark's cell
constexpr int kInner = (kMarkCells - 2) * kCell;  ///< all marks have the same rim: what lies within tells them apart
constexpr double kBlur = 1.6;                     ///< pixels of the flattened mark
constexpr float kLeastSide = 10;                  ///< pixels: of what is smaller nothing is left
constexpr double kAlike = 0.7, kApart = 0.15;     ///< correlation, and how much more of it than with any other mark

/// What lies within each mark's rim, blurred, its mean 0 and its length 1, at each of four turns.
std::vector<std::array<cv::Mat, 4>> patterns() {
  std::vector<std::array<cv::Mat, 4>> all;
  for (const SheetMark& mark : sheet_plan().marks) {
    cv::Mat pattern(kMarkCells * kCell, kMarkCells * kCell, CV_32F);
    for (int row = 0; row < pattern.rows; ++row) {
      for (int column = 0; column < pattern.cols; ++column)
        pattern.at<float>(row, column) = mark.black[row / kCell][column / kCell] ? 0.0F : 1.0F;
    }
    cv::GaussianBlur(pattern, pattern, {}, kBlur);
    std::array<cv::Mat, 4> turned;
    for (cv::Mat& one : turned) {
      one = pattern(cv::Rect(kCell, kCell, kInner, kInner)).clone();
      one -= cv::mean(one);
      one /= cv::norm(one);
      cv::rotate(pattern, pattern, cv::ROTATE_90_COUNTERCLOCKWISE);
    }
    all.push_back(turned);
  }
  return all;
}

}  // namespace

std::vector<MarkSeen> blurred_marks(const cv::Mat& grey, const std::vector<std::vector<cv::Point2f>>& quads) {
  static const std::vector<std::array<cv::Mat, 4>> known = patterns();
  constexpr float kSide = kMarkCells * kCell - 0.5F;
  const cv::Point2f flat_corners[4] = {{-0.5F, -0.5F}, {kSide, -0.5F}, {kSide, kSide}, {-0.5F, kSide}};
  std::vector<MarkSeen> marks;
  for (const std::vector<cv::Point2f>& quad : quads) {
    if (quad.size() != 4 || cv::arcLength(quad, true) < 4 * kLeastSide) continue;
    cv::Mat flat;
    cv::warpPerspective(grey, flat, cv::getPerspectiveTransform(quad.data(), flat_corners),
                        {kMarkCells * kCell, kMarkCells * kCell}, cv::INTER_LINEAR);
    cv::Mat inner;
    flat(cv::Rect(kCell, kCell, kInner, kInner)).convertTo(inner, CV_32F);
    inner -= cv::mean(inner);
    const double length = cv::norm(inner);
    if (length <= 0) continue;
    double most = 0, second = 0;
    MarkSeen seen;
    for (std::size_t id = 0; id < known.size(); ++id) {
      for (int turn = 0; turn < 4; ++turn) {
        const double alike = known[id][static_cast<std::size_t>(turn)].dot(inner) / length;
        if (alike <= most) {
          second = std::max(second, alike);
          continue;
        }
        second = most, most = alike;
        seen.id = static_cast<int>(id);
        // A mark turned a quarter to the left has its own top left at the bottom left.
        for (int i = 0; i < 4; ++i) seen.corners[i] = quad[(i + 4 - turn) % 4];
      }
    }
    if (most > kAlike && most - second > kApart) marks.push_back(seen);
  }
  return marks;
}

}  // namespace farflung::photo
