#include "photo/reference_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <utility>

#include <opencv2/aruco.hpp>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::photo {
namespace {

constexpr int kCells = 6;
constexpr double kSide = 1.14;  ///< inches, of a mark
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
  const double right = kHalfWidth - kSide, low = kHalfHeight - kSide;
  int id = 0;
  // Four down each side, one more in the middle of top and bottom.
  for (const double top : {-kHalfHeight, -kHalfHeight / 3 - kSide / 2, kHalfHeight / 3 - kSide / 2, low}) {
    plan.marks.push_back(mark(id++, -kHalfWidth, top));
    plan.marks.push_back(mark(id++, right, top));
  }
  for (const double top : {-kHalfHeight, low}) plan.marks.push_back(mark(id++, -kSide / 2, top));
  plan.window = {-2.2, -3.5, 4.4, 6.6};
  plan.inch = {-2.2, 3.4, 1, 0};
  plan.five_centimetres = {2.2 - 5 / 2.54, 3.4, 5 / 2.54, 0};
  return plan;
}

std::array<double, 2> projected(const cv::Matx33d& h, double x, double y) {
  const cv::Vec3d p = h * cv::Vec3d(x, y, 1);
  return {p[0] / p[2], p[1] / p[2]};
}

/// What is seen of a box of the sheet.
struct Patch {
  std::array<double, 3> seen{};  ///< encoded mean light
  double x = 0, y = 0;           ///< -1..1 across the picture
  double contrast = 0;           ///< standard deviation of the encoded green
};

/// None beyond the picture.
std::optional<Patch> patch(const cv::Mat& rgb, const SheetSeen& sheet, const SheetBox& box) {
  constexpr int kMost = 24;
  const auto corner = sheet.picture(box.left, box.top), right = sheet.picture(box.left + box.width, box.top),
             low = sheet.picture(box.left, box.top + box.height);
  const auto steps = [&](const std::array<double, 2>& to) {
    return std::clamp(static_cast<int>(std::hypot(to[0] - corner[0], to[1] - corner[1])), 5, kMost);
  };
  const int across = steps(right), down = steps(low);
  cv::Vec3d sum(0, 0, 0);
  double encoded = 0, squares = 0;
  for (int i = 0; i < across * down; ++i) {
    const int along = i % across, below = i / across;
    const auto p =
        sheet.picture(box.left + box.width * (along + 0.5) / across, box.top + box.height * (below + 0.5) / down);
    const int column = cvFloor(p[0]), row = cvFloor(p[1]);
    if (column < 0 || row < 0 || column >= rgb.cols || row >= rgb.rows) return {};
    const auto& pixel = rgb.at<cv::Vec3b>(row, column);
    for (int c = 0; c < 3; ++c) sum[c] += colour::decoded(pixel[c]);
    const double green = pixel[1] / 255.0;
    encoded += green, squares += green * green;
  }
  const double count = across * down;
  Patch patch;
  for (int c = 0; c < 3; ++c) patch.seen[c] = colour::encoded(sum[c] / count);
  const auto middle = sheet.picture(box.left + box.width / 2, box.top + box.height / 2);
  patch.x = 2 * middle[0] / rgb.cols - 1, patch.y = 2 * middle[1] / rgb.rows - 1;
  patch.contrast = std::sqrt(std::max(0.0, squares / count - encoded * encoded / (count * count)));
  return patch;
}

/// Where the sheet ends nearest a patch of it, and a little beyond; where the patch is if that is not in the picture.
std::array<double, 2> beside_sheet(const Picture& picture, const SheetSeen& sheet, const Patch& patch) {
  constexpr double kRight = 4.6, kBelow = 6.1;  // inches from the middle of Letter and A4, both
  auto [x, y] = sheet.sheet((patch.x + 1) * picture.columns / 2, (patch.y + 1) * picture.rows / 2);
  if (kRight - std::abs(x) < kBelow - std::abs(y)) {
    x = std::copysign(kRight, x);
  } else {
    y = std::copysign(kBelow, y);
  }
  const auto seen = sheet.picture(x, y);
  const std::array<double, 2> place = {2 * seen[0] / picture.columns - 1, 2 * seen[1] / picture.rows - 1};
  const bool within = std::abs(place[0]) < 1 && std::abs(place[1]) < 1;
  return within ? place : std::array<double, 2>{patch.x, patch.y};
}

double brightness(const Patch& known) { return known.seen[0] + known.seen[1] + known.seen[2]; }

/// Cloth or a hand may lie on the paper: keeps what looks like most of the rest.
void keep_the_common(std::vector<Patch>& whites) {
  if (whites.size() < 4) return;
  std::vector<double> values;
  values.reserve(whites.size());
  for (const Patch& white : whites) values.push_back(brightness(white));
  std::sort(values.begin(), values.end());
  const double high = values[values.size() * 3 / 4];
  std::erase_if(whites, [&](const Patch& white) { return brightness(white) < 0.8 * high; });
}

bool overlap(const SheetBox& a, const SheetBox& b) {
  return a.left < b.left + b.width && b.left < a.left + a.width && a.top < b.top + b.height && b.top < a.top + a.height;
}

/// The paper beside a box that is printed, along all of its sides where nothing else is. Zeros beyond the picture.
PaperBeside paper_beside(const cv::Mat& rgb, const SheetSeen& sheet, const SheetBox& box, double gap) {
  constexpr double kStrip = 0.13;
  const double right = box.left + box.width, below = box.top + box.height;
  std::vector<Patch> strips;
  for (const SheetBox& strip : {SheetBox{box.left, box.top - gap - kStrip, box.width, kStrip},
                                SheetBox{box.left, below + gap, box.width, kStrip},
                                SheetBox{box.left - gap - kStrip, box.top, kStrip, box.height},
                                SheetBox{right + gap, box.top, kStrip, box.height}}) {
    const SheetBox wider = {strip.left - gap, strip.top - gap, strip.width + 2 * gap, strip.height + 2 * gap};
    const auto in_the_way = [&](const SheetBox& printed) { return &printed != &box && overlap(wider, printed); };
    const SheetPlan& plan = sheet_plan();
    if (std::any_of(plan.marks.begin(), plan.marks.end(), [&](const auto& mark) { return in_the_way(mark.box); }) ||
        std::any_of(plan.screens.begin(), plan.screens.end(), [&](const auto& each) { return in_the_way(each.box); }))
      continue;
    if (const auto seen = patch(rgb, sheet, strip)) strips.push_back(*seen);
  }
  PaperBeside paper;
  if (strips.empty()) return paper;
  for (const Patch& strip : strips) {
    for (std::size_t c = 0; c < 3; ++c) paper.seen[c] += strip.seen[c] / static_cast<double>(strips.size());
  }
  const auto [darkest, brightest] = std::minmax_element(
      strips.begin(), strips.end(), [](const auto& a, const auto& b) { return brightness(a) < brightness(b); });
  paper.uneven = (brightness(*brightest) - brightness(*darkest)) / 3;
  return paper;
}

/// The sheet's darkness in cells of an eighth of an inch, 0 paper .. 1 black; columns x rows about its middle.
cv::Mat darkness(int columns, int rows, double cell) {
  constexpr int kFiner = 4;
  cv::Mat fine = cv::Mat::zeros(rows * kFiner, columns * kFiner, CV_32F), coarse;
  for (const SheetMark& mark : sheet_plan().marks) {
    const double side = mark.box.width / kCells;
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
  constexpr double kHalfX = kHalfWidth + 0.6, kHalfY = kHalfHeight + 0.6;
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
      const int side = static_cast<int>(mark.box.width * kPixels), cell = side / kCells;
      cv::Mat pattern(side + 2 * cell, side + 2 * cell, CV_8U, cv::Scalar(255)), matched;
      for (int row = 0; row < side; ++row) {
        for (int column = 0; column < side; ++column) {
          if (mark.black[row * kCells / side][column * kCells / side])
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
    const double cell = mark.box.width / kCells;
    for (int row = 0; row < kCells; ++row) {
      for (int column = 0; column < kCells; ++column) {
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
  sheet = settled(picture, sheet);
  if (sheet.marks < 4) return {};
  return sheet;
}

Evidence sheet_colours(const Picture& picture, const SheetSeen& sheet) {
  const cv::Mat rgb = view(picture);
  constexpr double kCell = kSide / kCells;
  const auto middle = sheet.picture(0, 0), beside = sheet.picture(1, 0), below = sheet.picture(0, 1);
  const double pixels_per_inch = (std::hypot(beside[0] - middle[0], beside[1] - middle[1]) +
                                  std::hypot(below[0] - middle[0], below[1] - middle[1])) /
                                 2;
  std::vector<Patch> whites;
  const auto add = [&](double x, double y, double half) {
    if (const auto seen = patch(rgb, sheet, {x - half, y - half, 2 * half, 2 * half})) whites.push_back(*seen);
  };
  // Half way between marks, far from any ink.
  const double out = kHalfWidth - kSide / 2, step = (2 * kHalfHeight - kSide) / 3;
  for (const double x : {-out, out}) {
    for (const double y : {-step, 0.0, step}) add(x, y, 0.25);
    for (const double y : {-kHalfHeight + kSide / 2, kHalfHeight - kSide / 2}) add(x / 2, y, 0.17);
  }
  keep_the_common(whites);
  Evidence evidence;
  for (const Patch& white : whites) {
    evidence.known.push_back({white.seen, white.x, white.y, kPaperWhite});
    evidence.known.back().beside = beside_sheet(picture, sheet, white);
  }

  const double blurred = std::min(0.15, 2.5 / pixels_per_inch);  // inches of a field's rim
  for (const SheetScreen& screen : sheet_plan().screens) {
    const SheetBox& box = screen.box;
    const SheetBox within = {box.left + blurred, box.top + blurred, box.width - 2 * blurred, box.height - 2 * blurred};
    if (const auto seen = patch(rgb, sheet, within))
      evidence.screens.push_back({seen->seen, seen->x, seen->y, screen.black, screen.pitch, seen->contrast,
                                  paper_beside(rgb, sheet, box, blurred)});
  }
  // Ink, where its cells are large enough to show their own colour. Blur lightens it: together they count as one.
  if (kCell * pixels_per_inch > 8) {
    std::vector<ScreenSeen> blacks;
    for (const SheetMark& mark : sheet_plan().marks) {
      const SheetBox cell = {mark.box.left + 0.4 * kCell, mark.box.top + 0.4 * kCell, 0.2 * kCell, 0.2 * kCell};
      if (const auto seen = patch(rgb, sheet, cell))
        blacks.push_back({seen->seen, seen->x, seen->y, 1, 1, 0, paper_beside(rgb, sheet, mark.box, blurred)});
    }
    const auto darkness = [](const ScreenSeen& black) {
      return (black.seen[0] + black.seen[1] + black.seen[2]) /
             (black.paper.seen[0] + black.paper.seen[1] + black.paper.seen[2] + 0.01);
    };
    std::sort(blacks.begin(), blacks.end(), [&](const auto& a, const auto& b) { return darkness(a) < darkness(b); });
    if (blacks.size() >= 4) evidence.screens.push_back(blacks[blacks.size() / 4]);
  }
  return evidence;
}

}  // namespace farflung::photo
