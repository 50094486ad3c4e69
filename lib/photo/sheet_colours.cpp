#include <algorithm>
#include <cmath>

#include <opencv2/core.hpp>

#include "photo/mat.hpp"
#include "photo/reference_sheet.hpp"
#include "photo/sheet_marks.hpp"

namespace farflung::photo {
namespace {

/// What is seen of a box of the sheet.
struct Patch {
  std::array<double, 3> seen{};  ///< encoded mean light
  double x = 0, y = 0;           ///< -1..1 across the picture
  double contrast = 0;           ///< standard deviation of the encoded green
  std::array<Values, 3> values;
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
  Patch patch;
  for (int i = 0; i < across * down; ++i) {
    const int along = i % across, below = i / across;
    const auto p =
        sheet.picture(box.left + box.width * (along + 0.5) / across, box.top + box.height * (below + 0.5) / down);
    const int column = cvFloor(p[0]), row = cvFloor(p[1]);
    if (column < 0 || row < 0 || column >= rgb.cols || row >= rgb.rows) return {};
    const auto& pixel = rgb.at<cv::Vec3b>(row, column);
    for (int c = 0; c < 3; ++c) {
      sum[c] += colour::decoded(pixel[c]);
      patch.values[c].add(pixel[c] / 255.0, 1.0 / (across * down));
    }
    const double green = pixel[1] / 255.0;
    encoded += green, squares += green * green;
  }
  const double count = across * down;
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

double brightness(const std::array<double, 3>& seen) { return seen[0] + seen[1] + seen[2]; }

/// Cloth or a hand may lie on the paper: keeps what looks like most of the rest.
void keep_the_common(std::vector<Patch>& whites) {
  if (whites.size() < 4) return;
  std::vector<double> values;
  values.reserve(whites.size());
  for (const Patch& white : whites) values.push_back(brightness(white.seen));
  std::sort(values.begin(), values.end());
  const double high = values[values.size() * 3 / 4];
  std::erase_if(whites, [&](const Patch& white) { return brightness(white.seen) < 0.8 * high; });
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
  const auto [darkest, brightest] = std::minmax_element(strips.begin(), strips.end(), [](const auto& a, const auto& b) {
    return brightness(a.seen) < brightness(b.seen);
  });
  paper.uneven = (brightness(brightest->seen) - brightness(darkest->seen)) / 3;
  return paper;
}

}  // namespace

Evidence sheet_colours(const Picture& picture, const SheetSeen& sheet) {
  const cv::Mat rgb = view(picture);
  constexpr double kCell = kMarkSide / kMarkCells;
  const auto middle = sheet.picture(0, 0), beside = sheet.picture(1, 0), below = sheet.picture(0, 1);
  const double pixels_per_inch = (std::hypot(beside[0] - middle[0], beside[1] - middle[1]) +
                                  std::hypot(below[0] - middle[0], below[1] - middle[1])) /
                                 2;
  std::vector<Patch> whites;
  const auto add = [&](double x, double y, double half) {
    if (const auto seen = patch(rgb, sheet, {x - half, y - half, 2 * half, 2 * half})) whites.push_back(*seen);
  };
  // Half way between marks, far from any ink.
  const double out = kMarksHalfWidth - kMarkSide / 2, step = (2 * kMarksHalfHeight - kMarkSide) / 3;
  for (const double x : {-out, out}) {
    for (const double y : {-step, 0.0, step}) add(x, y, 0.25);
    for (const double y : {-kMarksHalfHeight + kMarkSide / 2, kMarksHalfHeight - kMarkSide / 2}) add(x / 2, y, 0.17);
  }
  keep_the_common(whites);
  Evidence evidence;
  for (const Patch& white : whites) {
    evidence.known.push_back({white.seen, white.x, white.y, kPaperWhite});
    evidence.known.back().beside = beside_sheet(picture, sheet, white);
  }

  // Inches of a field's rim that a wide blur brings the paper's light into.
  const double blurred = std::min(0.15, 4 / pixels_per_inch);
  for (const SheetScreen& screen : sheet_plan().screens) {
    const SheetBox& box = screen.box;
    const SheetBox within = {box.left + blurred, box.top + blurred, box.width - 2 * blurred, box.height - 2 * blurred};
    if (const auto seen = patch(rgb, sheet, within))
      evidence.screens.push_back({seen->seen, seen->x, seen->y, screen.black, screen.pitch, seen->contrast,
                                  seen->values, pixels_per_inch * screen.pitch,
                                  paper_beside(rgb, sheet, box, blurred)});
  }
  // Ink, where its cells are large enough to show their own colour. Blur lightens it: together they count as one.
  if (kCell * pixels_per_inch > 8) {
    std::vector<ScreenSeen> blacks;
    for (const SheetMark& mark : sheet_plan().marks) {
      const SheetBox cell = {mark.box.left + 0.4 * kCell, mark.box.top + 0.4 * kCell, 0.2 * kCell, 0.2 * kCell};
      if (const auto seen = patch(rgb, sheet, cell))
        blacks.push_back({seen->seen, seen->x, seen->y, 1, 1, 0, {}, 1, paper_beside(rgb, sheet, mark.box, blurred)});
    }
    const auto darkness = [](const ScreenSeen& black) {
      return brightness(black.seen) / (brightness(black.paper.seen) + 0.01);
    };
    std::sort(blacks.begin(), blacks.end(), [&](const auto& a, const auto& b) { return darkness(a) < darkness(b); });
    if (blacks.size() >= 4) evidence.screens.push_back(blacks[blacks.size() / 4]);
  }
  return evidence;
}

}  // namespace farflung::photo
