#include "photo/reference_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <utility>

#include <opencv2/aruco.hpp>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include "photo/blurred_marks.hpp"
#include "photo/mat.hpp"
#include "photo/sheet_marks.hpp"

namespace farflung::photo {
namespace {

std::array<double, 2> projected(const cv::Matx33d& h, double x, double y) {
  const cv::Vec3d p = h * cv::Vec3d(x, y, 1);
  return {p[0] / p[2], p[1] / p[2]};
}

/// The sheet's darkness in cells of an eighth of an inch, 0 paper .. 1 black; columns x rows about its middle.
cv::Mat darkness(int columns, int rows, double cell) {
  constexpr int kFiner = 4;
  cv::Mat fine = cv::Mat::zeros(rows * kFiner, columns * kFiner, CV_32F), coarse;
  for (const SheetMark& mark : sheet_plan().marks) {
    const double side = mark.box.width / kMarkCells;
    for (int row = 0; row < fine.rows; ++row) {
      const double y = ((row + 0.5) / kFiner - rows / 2.0) * cell - mark.box.top;
      for (int column = 0; column < fine.cols; ++column) {
        const double x = ((column + 0.5) / kFiner - columns / 2.0) * cell - mark.box.left;
        if (x < 0 || y < 0 || x >= mark.box.width || y >= mark.box.height) continue;
        if (mark.black[static_cast<std::size_t>(y / side)][static_cast<std::size_t>(x / side)])
          fine.at<float>(row, column) = 1;
      }
    }
  }
  for (const SheetScreen& screen : sheet_plan().screens) {
    const auto at = [&](double inches, int cells) { return cvRound((inches / cell + cells / 2.0) * kFiner); };
    const SheetBox& box = screen.box;
    const cv::Point from(at(box.left, columns), at(box.top, rows)),
        to(at(box.left + box.width, columns), at(box.top + box.height, rows));
    fine(cv::Rect(from, to) & cv::Rect({0, 0}, fine.size())).setTo(screen.black);
  }
  cv::resize(fine, coarse, {columns, rows}, 0, 0, cv::INTER_AREA);
  return coarse;
}

/// The same, a little blurred; worked out once for each size.
const cv::Mat& printed_darkness(int columns, int rows, double cell) {
  static std::map<std::pair<int, int>, cv::Mat> known;
  static std::mutex guard;
  const std::scoped_lock lock(guard);
  cv::Mat& expected = known[{columns, rows}];
  if (expected.empty()) cv::GaussianBlur(darkness(columns, rows, cell), expected, {}, 1);
  return expected;
}

/// Where a CV_32F surface is highest near its highest pixel: by a parabola through its neighbours, each way.
cv::Point2d summit(const cv::Mat& surface, cv::Point peak) {
  const auto between = [](float before, float at, float after) {
    const double bend = 2.0 * at - before - after;
    return bend > 1e-6 ? 0.5 * (after - before) / bend : 0.0;
  };
  cv::Point2d top = peak;
  if (peak.x > 0 && peak.x + 1 < surface.cols) {
    const float* row = surface.ptr<float>(peak.y) + peak.x;
    top.x += between(row[-1], row[0], row[1]);
  }
  if (peak.y > 0 && peak.y + 1 < surface.rows) {
    top.y +=
        between(surface.at<float>(peak.y - 1, peak.x), surface.at<float>(peak), surface.at<float>(peak.y + 1, peak.x));
  }
  return top;
}

/// Slides each mark over the flattened page and fits the page again to where they match best: marks that could not be
/// read, and the far side of the page, come right too.
SheetSeen settled(const Picture& picture, SheetSeen sheet) {
  constexpr double kPixels = 24, kSearch = 0.45, kMatch = 0.6;  // to the inch; inches; correlation
  constexpr double kHalfX = kMarksHalfWidth + 0.6, kHalfY = kMarksHalfHeight + 0.6;
  const cv::Size size(static_cast<int>(2 * kHalfX * kPixels), static_cast<int>(2 * kHalfY * kPixels));
  const cv::Matx33d page_from_flat(1 / kPixels, 0, 0.5 / kPixels - kHalfX, 0, 1 / kPixels, 0.5 / kPixels - kHalfY, 0, 0,
                                   1);
  for (int round = 0; round < 2; ++round) {
    const cv::Matx33d h(sheet.picture_from_sheet.data());
    cv::Mat flat, grey;
    cv::warpPerspective(view(picture), flat, cv::Matx33d(1, 0, -0.5, 0, 1, -0.5, 0, 0, 1) * h * page_from_flat, size,
                        cv::INTER_LINEAR | cv::WARP_INVERSE_MAP);
    cv::cvtColor(flat, grey, cv::COLOR_RGB2GRAY);
    std::vector<cv::Point2f> printed, seen;
    for (const SheetMark& mark : sheet_plan().marks) {
      const int side = static_cast<int>(mark.box.width * kPixels), cell = side / kMarkCells;
      cv::Mat pattern(side + 2 * cell, side + 2 * cell, CV_8U, cv::Scalar(255)), matched;
      for (int row = 0; row < side; ++row) {
        for (int column = 0; column < side; ++column) {
          if (mark.black[row * kMarkCells / side][column * kMarkCells / side])
            pattern.at<std::uint8_t>(row + cell, column + cell) = 0;
        }
      }
      cv::GaussianBlur(pattern, pattern, {}, 1.2);
      const cv::Point2d at((mark.box.left + kHalfX) * kPixels - cell, (mark.box.top + kHalfY) * kPixels - cell);
      const int reach = static_cast<int>(kSearch * kPixels);
      const cv::Rect place =
          cv::Rect(cvRound(at.x) - reach, cvRound(at.y) - reach, pattern.cols + 2 * reach, pattern.rows + 2 * reach) &
          cv::Rect({0, 0}, size);
      if (place.width < pattern.cols + 2 || place.height < pattern.rows + 2) continue;
      cv::matchTemplate(grey(place), pattern, matched, cv::TM_CCOEFF_NORMED);
      double peak = 0;
      cv::Point where;
      cv::minMaxLoc(matched, nullptr, &peak, nullptr, &where);
      if (peak < kMatch) continue;
      const double x = mark.box.left + mark.box.width / 2, y = mark.box.top + mark.box.height / 2;
      const cv::Point2d top = summit(matched, where);
      const double dx = (place.x + top.x - at.x) / kPixels, dy = (place.y + top.y - at.y) / kPixels;
      const auto p = sheet.picture(x + dx, y + dy);
      printed.emplace_back(static_cast<float>(x), static_cast<float>(y));
      seen.emplace_back(static_cast<float>(p[0]), static_cast<float>(p[1]));
    }
    sheet.marks = static_cast<int>(printed.size());
    if (printed.size() < 5) return sheet;
    const cv::Mat better = cv::findHomography(printed, seen, 0);
    if (better.empty()) return sheet;
    for (int i = 0; i < 9; ++i) sheet.picture_from_sheet[i] = better.at<double>(i / 3, i % 3);
  }
  return sheet;
}

/// The sheet by its marks, so many of which at least must lie as they are printed.
std::optional<SheetSeen> sheet_by(const std::vector<MarkSeen>& marks, int least, const Picture& picture) {
  std::vector<cv::Point2f> seen, printed;
  for (const MarkSeen& mark : marks) {
    if (mark.id < 0 || mark.id >= static_cast<int>(sheet_plan().marks.size())) continue;
    const SheetBox& box = sheet_plan().marks[static_cast<std::size_t>(mark.id)].box;
    const double right = box.left + box.width, below = box.top + box.height;
    const double corners[4][2] = {{box.left, box.top}, {right, box.top}, {right, below}, {box.left, below}};
    for (int k = 0; k < 4; ++k) {
      seen.push_back(mark.corners[k] + cv::Point2f(0.5F, 0.5F));
      printed.emplace_back(static_cast<float>(corners[k][0]), static_cast<float>(corners[k][1]));
    }
  }
  const int corners = 4 * least;
  if (static_cast<int>(seen.size()) < corners) return {};
  cv::Mat inliers;
  const cv::Mat h = cv::findHomography(printed, seen, cv::RANSAC, std::max(2.0, picture.columns / 500.0), inliers);
  if (h.empty() || cv::countNonZero(inliers) < corners) return {};
  SheetSeen sheet;
  for (int i = 0; i < 9; ++i) sheet.picture_from_sheet[i] = h.at<double>(i / 3, i % 3);
  sheet = settled(picture, sheet);
  return sheet.marks >= 4 ? std::optional(sheet) : std::nullopt;
}

double correlation(const cv::Mat& a, const cv::Mat& b) {
  cv::Scalar mean_a, mean_b, deviation_a, deviation_b;
  cv::meanStdDev(a, mean_a, deviation_a);
  cv::meanStdDev(b, mean_b, deviation_b);
  const double together = cv::mean(a.mul(b))[0] - mean_a[0] * mean_b[0];
  return together / std::max(1e-9, deviation_a[0] * deviation_b[0]);
}

}  // namespace

std::optional<SheetSeen> sheet_within(const Picture& picture, const Corners& corners) {
  constexpr double kCell = 0.125, kAlike = 0.6;
  SheetSeen best;
  double most = kAlike;
  for (const auto& [width, height] : {std::pair{8.5, 11.0}, {210 / 25.4, 297 / 25.4}}) {
    const int columns = static_cast<int>(width / kCell), rows = static_cast<int>(height / kCell);
    const cv::Mat& expected = printed_darkness(columns, rows, kCell);
    for (int turn = 0; turn < 4; ++turn) {
      cv::Point2f seen[4];
      for (int i = 0; i < 4; ++i) {
        const auto& p = corners[(i + turn) % 4];
        seen[i] = cv::Point2f(static_cast<float>(p[0]), static_cast<float>(p[1]));
      }
      const auto x = static_cast<float>(width / 2), y = static_cast<float>(height / 2);
      const cv::Point2f page[4] = {{-x, -y}, {x, -y}, {x, y}, {-x, y}};
      const cv::Matx33d h = cv::getPerspectiveTransform(page, seen);
      const cv::Matx33d page_from_cell(kCell, 0, (0.5 - columns / 2.0) * kCell, 0, kCell, (0.5 - rows / 2.0) * kCell, 0,
                                       0, 1);
      cv::Mat flat, grey;
      cv::warpPerspective(view(picture), flat, cv::Matx33d(1, 0, -0.5, 0, 1, -0.5, 0, 0, 1) * h * page_from_cell,
                          {columns, rows}, cv::INTER_AREA | cv::WARP_INVERSE_MAP);
      cv::cvtColor(flat, grey, cv::COLOR_RGB2GRAY);
      grey.convertTo(grey, CV_32F, -1 / 255.0, 1);
      cv::GaussianBlur(grey, grey, {}, 0.7);
      const double alike = correlation(expected, grey);
      if (alike <= most) continue;
      most = alike;
      for (int i = 0; i < 9; ++i) best.picture_from_sheet[i] = h.val[i];
    }
  }
  if (most <= kAlike) return {};
  best = settled(picture, best);
  return best.marks >= 4 ? std::optional(best) : std::nullopt;
}

std::array<double, 2> SheetSeen::picture(double x, double y) const {
  return projected(cv::Matx33d(picture_from_sheet.data()), x, y);
}

std::array<double, 2> SheetSeen::sheet(double column, double row) const {
  return projected(cv::Matx33d(picture_from_sheet.data()).inv(), column, row);
}

std::optional<SheetSeen> find_sheet(const Picture& picture) {
  cv::Mat grey;
  cv::cvtColor(view(picture), grey, cv::COLOR_RGB2GRAY);
  std::vector<std::vector<cv::Point2f>> found, unread;
  std::vector<int> ids;
  const auto how = cv::aruco::DetectorParameters::create();
  how->cornerRefinementMethod = cv::aruco::CORNER_REFINE_SUBPIX;
  how->cornerRefinementWinSize = 3;
  how->minMarkerPerimeterRate = 0.02;
  cv::aruco::detectMarkers(grey, mark_dictionary(), found, ids, how, unread);
  std::vector<MarkSeen> marks;
  for (std::size_t i = 0; i < ids.size(); ++i)
    marks.push_back({ids[i], {found[i][0], found[i][1], found[i][2], found[i][3]}});
  if (auto sheet = sheet_by(marks, 2, picture)) return sheet;
  // What is made of blurred marks must agree in more of them.
  const std::vector<MarkSeen> blurred = blurred_marks(grey, unread);
  marks.insert(marks.end(), blurred.begin(), blurred.end());
  return sheet_by(marks, 3, picture);
}

}  // namespace farflung::photo
