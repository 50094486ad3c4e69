#include "photo/reference_sheet.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/aruco.hpp>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::photo {
namespace {

constexpr int kCells = 6;
constexpr double kSide = 0.84;  ///< inches, of a mark
constexpr double kHalfWidth = 3.6, kHalfHeight = 4.9;

cv::Ptr<cv::aruco::Dictionary> dictionary() { return cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_50); }

SheetMark mark(int id, double left, double top) {
  SheetMark result{id, {left, top, kSide, kSide}, {}};
  cv::Mat cells;
  cv::aruco::drawMarker(dictionary(), id, kCells, cells, 1);
  for (int row = 0; row < kCells; ++row) {
    for (int column = 0; column < kCells; ++column)
      result.black[row][column] = cells.at<std::uint8_t>(row, column) < 128;
  }
  return result;
}

SheetPlan drawn_up() {
  SheetPlan plan;
  const double right = kHalfWidth - kSide, low = kHalfHeight - kSide;
  int id = 0;
  // Four down each side, one more in the middle of top and bottom.
  for (const double top : {-kHalfHeight, -kHalfHeight / 3 - kSide / 2, kHalfHeight / 3 - kSide / 2, low}) {
    plan.marks.push_back(mark(id++, -kHalfWidth, top));
    plan.marks.push_back(mark(id++, right, top));
  }
  for (const double top : {-kHalfHeight, low}) plan.marks.push_back(mark(id++, -kSide / 2, top));
  plan.window = {-2.5, -3.75, 5, 7};
  plan.inch = {-2.5, 3.45, 1, 0};
  plan.five_centimetres = {2.5 - 5 / 2.54, 3.45, 5 / 2.54, 0};
  return plan;
}

std::array<double, 2> projected(const cv::Matx33d& h, double x, double y) {
  const cv::Vec3d p = h * cv::Vec3d(x, y, 1);
  return {p[0] / p[2], p[1] / p[2]};
}

/// A small patch's mean, encoded; none beyond the picture.
std::optional<KnownColour> patch(const cv::Mat& rgb, const SheetSeen& sheet, double x, double y, double half,
                                 colour::Lab truth) {
  cv::Vec3d sum(0, 0, 0);
  int count = 0;
  for (int i = -2; i <= 2; ++i) {
    for (int j = -2; j <= 2; ++j) {
      const auto p = sheet.picture(x + i * half / 2, y + j * half / 2);
      const int column = cvFloor(p[0]), row = cvFloor(p[1]);
      if (column < 0 || row < 0 || column >= rgb.cols || row >= rgb.rows) return {};
      for (int c = 0; c < 3; ++c) sum[c] += colour::decoded(rgb.at<cv::Vec3b>(row, column)[c]);
      ++count;
    }
  }
  KnownColour known;
  for (int c = 0; c < 3; ++c) known.seen[c] = colour::encoded(sum[c] / count);
  const auto middle = sheet.picture(x, y);
  known.x = 2 * middle[0] / rgb.cols - 1, known.y = 2 * middle[1] / rgb.rows - 1;
  known.truth = truth;
  return known;
}

double brightness(const KnownColour& known) { return known.seen[0] + known.seen[1] + known.seen[2]; }

/// Cloth or a hand may lie on the paper: keeps what looks like most of the rest.
void keep_the_common(std::vector<KnownColour>& whites) {
  if (whites.size() < 4) return;
  std::vector<double> values;
  for (const KnownColour& white : whites) values.push_back(brightness(white));
  std::sort(values.begin(), values.end());
  const double high = values[values.size() * 3 / 4];
  std::erase_if(whites, [&](const KnownColour& white) { return brightness(white) < 0.8 * high; });
}

}  // namespace

const SheetPlan& sheet_plan() {
  static const SheetPlan plan = drawn_up();
  return plan;
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
  std::vector<std::vector<cv::Point2f>> found;
  std::vector<int> ids;
  const auto how = cv::aruco::DetectorParameters::create();
  how->cornerRefinementMethod = cv::aruco::CORNER_REFINE_SUBPIX;
  how->cornerRefinementWinSize = 3;
  how->minMarkerPerimeterRate = 0.02;
  cv::aruco::detectMarkers(grey, dictionary(), found, ids, how);
  std::vector<cv::Point2f> seen, printed;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    const auto& marks = sheet_plan().marks;
    if (ids[i] < 0 || ids[i] >= static_cast<int>(marks.size())) continue;
    const SheetBox& box = marks[ids[i]].box;
    const double right = box.left + box.width, below = box.top + box.height;
    const double corners[4][2] = {{box.left, box.top}, {right, box.top}, {right, below}, {box.left, below}};
    for (int k = 0; k < 4; ++k) {
      seen.push_back(found[i][k] + cv::Point2f(0.5F, 0.5F));
      printed.emplace_back(static_cast<float>(corners[k][0]), static_cast<float>(corners[k][1]));
    }
  }
  if (seen.size() < 8) return {};
  cv::Mat inliers;
  const cv::Mat h = cv::findHomography(printed, seen, cv::RANSAC, std::max(2.0, picture.columns / 500.0), inliers);
  if (h.empty() || cv::countNonZero(inliers) < 8) return {};
  SheetSeen sheet;
  for (int i = 0; i < 9; ++i) sheet.picture_from_sheet[i] = h.at<double>(i / 3, i % 3);
  sheet.marks = cv::countNonZero(inliers) / 4;
  return sheet;
}

std::vector<KnownColour> sheet_colours(const Picture& picture, const SheetSeen& sheet) {
  const cv::Mat rgb = view(picture);
  constexpr double kCell = kSide / kCells;
  std::vector<KnownColour> whites, blacks;
  for (const SheetMark& mark : sheet_plan().marks) {
    const SheetBox& box = mark.box;
    const double x = box.left + box.width / 2, y = box.top + box.height / 2, out = kSide / 2 + 0.6 * kCell;
    for (const auto& [dx, dy] : {std::pair{out, 0.0}, {-out, 0.0}, {0.0, out}, {0.0, -out}}) {
      if (const auto white = patch(rgb, sheet, x + dx, y + dy, 0.2 * kCell, kPaperWhite)) whites.push_back(*white);
    }
    // The border's corners are black whatever the mark.
    const auto black = patch(rgb, sheet, box.left + kCell / 2, box.top + kCell / 2, 0.12 * kCell, kPrintedBlack);
    if (black) blacks.push_back(*black);
  }
  keep_the_common(whites);
  whites.insert(whites.end(), blacks.begin(), blacks.end());
  return whites;
}

}  // namespace farflung::photo
