#include "extract/features.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include <opencv2/imgproc.hpp>

#include "extract/middle.hpp"
#include "extract/palette.hpp"
#include "extract/pattern.hpp"
#include "extract/wide_blur.hpp"
#include "photo/lab_table.hpp"

namespace farflung::extract {

colour::Lab mean_colour(const photo::Picture& swatch) {
  std::array<std::array<std::int64_t, 256>, 3> counts{};
  for (std::size_t i = 0; i + 2 < swatch.rgb.size(); i += 3) {
    for (std::size_t c = 0; c < 3; ++c) ++counts[c][swatch.rgb[i + c]];
  }
  std::array<double, 3> mean{};
  for (std::size_t c = 0; c < 3; ++c) {
    for (int v = 0; v < 256; ++v) mean[c] += colour::decoded(static_cast<std::uint8_t>(v)) * counts[c][v];
    mean[c] /= std::max(1.0, static_cast<double>(swatch.columns) * swatch.rows);
  }
  return colour::lab_from_light({mean[0], mean[1], mean[2]});
}

double value_range(const photo::Picture& swatch) {
  constexpr int kBins = 1000;
  std::vector<int> counts(kBins + 1);
  const cv::Mat lab = photo::lab_of(zoomed(middle_of(swatch), 0.5));
  for (int row = 0; row < lab.rows; ++row) {
    const auto* line = lab.ptr<cv::Vec3f>(row);
    for (int column = 0; column < lab.cols; ++column) {
      ++counts[static_cast<std::size_t>(std::clamp(line[column][0], 0.0F, 100.0F) * kBins / 100)];
    }
  }
  const double all = static_cast<double>(lab.total());
  const auto percentile = [&](double share) {
    int seen = 0, bin = 0;
    while (bin < kBins && seen + counts[bin] < share * all) seen += counts[bin++];
    return bin * 100.0 / kBins;
  };
  return percentile(0.95) - percentile(0.05);
}

double busyness(const photo::Picture& swatch, std::optional<double> inches) {
  constexpr int kSide = 256;
  const cv::Mat rgb = middle_of(swatch);
  const double shrink = std::min(1.0, static_cast<double>(kSide) / std::max(rgb.cols, rgb.rows));
  cv::Mat small, seen, around;
  cv::resize(rgb, small, {}, shrink, shrink, cv::INTER_AREA);
  const cv::Mat lab = photo::lab_of(small);
  const double radius = inches ? 0.75 * shrink * swatch.columns / *inches : std::max(small.cols, small.rows) / 12.0;
  cv::GaussianBlur(lab, seen, {}, std::max(0.8, radius / 24));
  blur_widely(lab, around, std::max(2.0, radius / 1.5));
  double sum = 0;
  for (int row = 0; row < lab.rows; ++row) {
    for (int column = 0; column < lab.cols; ++column) {
      const cv::Vec3f off = seen.at<cv::Vec3f>(row, column) - around.at<cv::Vec3f>(row, column);
      sum += std::sqrt(off.dot(off));
    }
  }
  return 1 - std::exp(-sum / static_cast<double>(lab.total()) / 12);
}

print::Features features_of(const photo::Picture& swatch, std::optional<double> inches, const print::Features& before) {
  print::Features features = before;
  const auto measured = [&](std::string_view name) {
    return std::find(before.by_hand.begin(), before.by_hand.end(), name) == before.by_hand.end();
  };
  if (measured("lab")) features.lab = mean_colour(swatch);
  if (measured("palette")) features.palette = palette_of(swatch);
  if (measured("value_range")) features.value_range = value_range(swatch);
  if (measured("busyness")) features.busyness = busyness(swatch, inches);
  const Repeat repeat = repeat_of(swatch);
  if (measured("direction")) features.direction = repeat.direction;
  if (measured("scale")) {
    features.scale.reset(), features.scale_share.reset();
    if (repeat.size) features.scale_share = *repeat.size / swatch.columns;
    if (repeat.size && inches) features.scale = *repeat.size * *inches / swatch.columns;
  }
  return features;
}

}  // namespace farflung::extract
