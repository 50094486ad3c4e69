#include "simulator/fabric.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/design.hpp"
#include "simulator/field.hpp"
#include "simulator/light.hpp"

namespace farflung::simulator {
namespace {

constexpr double kThreadsPerInch = 68;

// Threads differ in thickness and take the dye unevenly: streaks of a thread's width, some inches long, one set each
// way.
cv::Mat threads_across(const Tile& tile, double run, Rng& rng) {
  const cv::Size size = tile.pixels();
  const int threads = cvRound(tile.width * kThreadsPerInch), runs = std::max(2, cvRound(tile.height / run));
  const cv::Mat thickness = deviates({threads, runs}, rng);
  cv::Mat columns;
  if (threads > size.width) {
    cv::resize(thickness, columns, {size.width, runs}, 0, 0, cv::INTER_AREA);
    return drawn_out(columns, size);
  }
  return drawn_out(thickness, size);
}

// The shade of each thread's roundness, where pixels are fine enough to see it.
cv::Mat thread_shading(const Tile& tile) {
  const cv::Size size = tile.pixels();
  const double per_thread_x = size.width / std::round(tile.width * kThreadsPerInch);
  const double per_thread_y = size.height / std::round(tile.height * kThreadsPerInch);
  cv::Mat across(1, size.width, CV_32F), along(size.height, 1, CV_32F);
  for (int x = 0; x < size.width; ++x) {
    across.at<float>(x) = static_cast<float>(std::sin(2 * CV_PI * (x + 0.5) / per_thread_x));
  }
  for (int y = 0; y < size.height; ++y) {
    along.at<float>(y) = static_cast<float>(std::sin(2 * CV_PI * (y + 0.5) / per_thread_y));
  }
  return along * across;
}

cv::Mat weave_of(const Tile& tile, Rng& rng) {
  Tile turned = tile;
  std::swap(turned.width, turned.height);
  cv::Mat weft;
  const cv::Mat warp = threads_across(tile, 0.7, rng);
  cv::resize(threads_across(turned, 0.4, rng).t(), weft, tile.pixels());
  cv::Mat weave = 1 + 0.028 * warp + 0.036 * weft;
  const double per_thread = tile.pixels_per_inch / kThreadsPerInch;
  if (per_thread > 2) weave += std::min(0.07, 0.07 * (per_thread - 2)) * thread_shading(tile);
  return weave / cv::mean(weave)[0];
}

// A painter tells it while painting, at any resolution.
std::optional<double> scale_of(const Fabric& fabric) {
  constexpr double kCoarse = 12;
  Rng rng(fabric.seed);
  Brush brush{tile_of(fabric, kCoarse), fabric.motif, fabric.inks, rng};
  design_named(fabric.design).paint(brush);
  if (brush.scale <= 0) return {};
  return brush.scale;
}

}  // namespace

Tile tile_of(const Fabric& fabric, double pixels_per_inch) {
  const Design& design = design_named(fabric.design);
  return {design.across * fabric.motif, design.down * fabric.motif, pixels_per_inch};
}

cv::Mat cloth(const Fabric& fabric, double pixels_per_inch) {
  const Tile tile = tile_of(fabric, pixels_per_inch);
  Rng rng(fabric.seed);
  Brush brush{tile, fabric.motif, fabric.inks, rng};
  cv::Mat print = design_named(fabric.design).paint(brush);
  Rng weaver(derived(fabric.seed, 1));
  const cv::Mat weave = weave_of(tile, weaver);
  cv::Mat three;
  cv::merge(std::vector<cv::Mat>{weave, weave, weave}, three);
  // White thread shows through a little: no dye is as deep on cloth as in the pot.
  print = (print * 0.985 + cv::Scalar::all(0.008)).mul(three);
  return print;
}

cv::Mat window(const cv::Mat& repeat, cv::Point from, cv::Size size) {
  const auto wrapped = [](int place, int whole) { return ((place % whole) + whole) % whole; };
  const int left = wrapped(from.x, repeat.cols), top = wrapped(from.y, repeat.rows);
  cv::Mat picture(size, repeat.type());
  for (int y = -top; y < size.height; y += repeat.rows) {
    for (int x = -left; x < size.width; x += repeat.cols) {
      const cv::Rect part = cv::Rect({x, y}, repeat.size()) & cv::Rect({0, 0}, size);
      if (!part.empty()) repeat(part - cv::Point(x, y)).copyTo(picture(part));
    }
  }
  return picture;
}

cv::Mat cut(const Fabric& fabric, cv::Rect2d piece, double pixels_per_inch) {
  const cv::Mat repeat = cloth(fabric, pixels_per_inch);
  const Tile tile = tile_of(fabric, pixels_per_inch);
  const double fx = repeat.cols / tile.width, fy = repeat.rows / tile.height;
  const cv::Size size(std::max(1, cvRound(piece.width * fx)), std::max(1, cvRound(piece.height * fy)));
  return window(repeat, {cvRound(piece.x * fx), cvRound(piece.y * fy)}, size);
}

Truth truth_of(const Fabric& fabric) {
  constexpr double kFine = 60;
  const Design& design = design_named(fabric.design);
  const cv::Mat linear = cloth(fabric, kFine);
  Truth truth;
  truth.lab = lab_of(mean_light(linear));
  truth.scale = scale_of(fabric);
  truth.direction = design.direction;

  const cv::Mat srgb = srgb_picture(linear);
  std::vector<cv::Vec3d> sums(fabric.inks.size());
  std::vector<int> counts(fabric.inks.size());
  for (int y = 0; y < srgb.rows; ++y) {
    for (int x = 0; x < srgb.cols; ++x) {
      const cv::Vec3b pixel = srgb.at<cv::Vec3b>(y, x);
      std::size_t nearest = 0;
      int least = 1 << 30;
      for (std::size_t i = 0; i < fabric.inks.size(); ++i) {
        const Ink ink = fabric.inks[i];
        const int red = pixel[0] - ink.red, green = pixel[1] - ink.green, blue = pixel[2] - ink.blue;
        const int distance = red * red + green * green + blue * blue;
        if (distance < least) {
          least = distance;
          nearest = i;
        }
      }
      sums[nearest] += cv::Vec3d(linear.at<cv::Vec3f>(y, x));
      ++counts[nearest];
    }
  }
  for (std::size_t i = 0; i < sums.size(); ++i) {
    if (counts[i] == 0) continue;
    truth.palette.push_back({lab_of(sums[i] / counts[i]), counts[i] / static_cast<double>(srgb.total())});
  }
  std::sort(truth.palette.begin(), truth.palette.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
  return truth;
}

}  // namespace farflung::simulator
