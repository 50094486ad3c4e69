#include "photo/chart.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>

#include <opencv2/imgproc.hpp>
#include <opencv2/mcc.hpp>

#include "base/median.hpp"
#include "chart_values.hpp"
#include "photo/mat.hpp"

namespace farflung::photo {
namespace {

constexpr int kColumns = 6, kRows = 4;
constexpr double kBelievable = 9;  ///< dE00, the median patch after fitting: what is above is no such chart

/// D65 from D50 by Bradford's cone responses (ICC.1:2022, annex E, inverted).
colour::Xyz adapted_from_d50(const colour::Xyz& c) {
  return {0.9555766 * c.X - 0.0230393 * c.Y + 0.0631636 * c.Z, -0.0282895 * c.X + 1.0099416 * c.Y + 0.0210077 * c.Z,
          0.0122982 * c.X - 0.0204830 * c.Y + 1.3299098 * c.Z};
}

std::array<colour::Lab, kChartPatches> read_values() {
  constexpr colour::Xyz kD50 = {0.96422, 1, 0.82521};
  std::array<colour::Lab, kChartPatches> values{};
  std::string_view text = kChartValues;
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(text.size(), line.size() + 1));
    std::array<double, 4> numbers{};
    const char* at = line.data();
    const char* end = line.data() + line.size();
    bool good = true;
    for (double& number : numbers) {
      const auto [next, error] = std::from_chars(at, end, number);
      good = good && error == std::errc();
      at = next < end ? next + 1 : end;
    }
    if (!good || numbers[0] < 0 || numbers[0] >= kChartPatches) continue;  // the heading and the notes
    const colour::Lab d50{numbers[1], numbers[2], numbers[3]};
    values[static_cast<std::size_t>(numbers[0])] =
        colour::lab_from_xyz(adapted_from_d50(colour::xyz_from_lab(d50, kD50)));
  }
  return values;
}

/// The mean of the middle of patch `index`, encoded, 0..1.
KnownColour patch_seen(const cv::Mat& rgb, const cv::Matx33d& photo_from_chart, int index) {
  constexpr int kSteps = 9;
  constexpr double kFirst = 0.34, kStep = 0.04;  // of the patch
  const int column_of = index % kColumns, row_of = index / kColumns;
  cv::Vec3d sum(0, 0, 0);
  constexpr int kCount = kSteps * kSteps;
  KnownColour seen;
  for (int down = 0; down < kSteps; ++down) {
    for (int across = 0; across < kSteps; ++across) {
      const double u = column_of + kFirst + across * kStep, v = row_of + kFirst + down * kStep;
      const cv::Vec3d p = photo_from_chart * cv::Vec3d(u / kColumns, v / kRows, 1);
      const int column = std::clamp(cvRound(p[0] / p[2]), 0, rgb.cols - 1);
      const int row = std::clamp(cvRound(p[1] / p[2]), 0, rgb.rows - 1);
      for (int c = 0; c < 3; ++c) sum[c] += colour::decoded(rgb.at<cv::Vec3b>(row, column)[c]);
      seen.x += 2.0 * column / rgb.cols - 1, seen.y += 2.0 * row / rgb.rows - 1;
    }
  }
  for (int c = 0; c < 3; ++c) seen.seen[c] = colour::encoded(sum[c] / kCount);
  seen.x /= kCount, seen.y /= kCount;
  seen.truth = chart_colours()[index];
  return seen;
}

bool believable(const std::vector<KnownColour>& patches) {
  const Balance balance = fitted_balance({patches, {}, {}});
  std::vector<double> off;
  off.reserve(patches.size());
  for (const KnownColour& p : patches) {
    off.push_back(colour::delta_e_2000(colour::lab_from_light(balance.corrected(p.seen, p.x, p.y)), p.truth));
  }
  return median(std::move(off)) < kBelievable;
}

}  // namespace

const std::array<colour::Lab, kChartPatches>& chart_colours() {
  static const std::array<colour::Lab, kChartPatches> values = read_values();
  return values;
}

std::optional<ChartSeen> find_chart(const Picture& picture) {
  constexpr int kSide = 720;  // patches of a chart a fifth of the picture long are still a dozen pixels
  const double shrink = std::min(1.0, static_cast<double>(kSide) / std::max(picture.columns, picture.rows));
  cv::Mat small, bgr;
  cv::resize(view(picture), small, {}, shrink, shrink, cv::INTER_AREA);
  cv::cvtColor(small, bgr, cv::COLOR_RGB2BGR);
  std::vector<cv::Point2f> box;
  try {
    const cv::Ptr<cv::mcc::CCheckerDetector> detector = cv::mcc::CCheckerDetector::create();
    const cv::Ptr<cv::mcc::DetectorParameters> how = cv::mcc::DetectorParameters::create();
    how->minImageSize = kSide;  // else it would be enlarged again
    how->adaptiveThreshWinSizeStep = 32;
    if (!detector->process(bgr, cv::mcc::MCC24, 1, false, how)) return {};
    box = detector->getBestColorChecker()->getBox();
  } catch (const cv::Exception&) {
    return {};
  }
  if (box.size() != 4) return {};
  const cv::Point2f unit[4] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
  const cv::Matx33d photo_from_chart = cv::getPerspectiveTransform(unit, box.data());
  ChartSeen chart;
  for (int i = 0; i < 4; ++i) chart.corners[i] = {(box[i].x + 0.5) / shrink, (box[i].y + 0.5) / shrink};
  for (int i = 0; i < kChartPatches; ++i) chart.patches.push_back(patch_seen(small, photo_from_chart, i));
  if (!believable(chart.patches)) return {};
  return chart;
}

}  // namespace farflung::photo
