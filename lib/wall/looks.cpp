#include "wall/looks.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "base/rng.hpp"
#include "colour/srgb.hpp"
#include "photo/mat.hpp"

namespace farflung::wall {
namespace {

/// What a swatch spans where nobody has said: about what a telephone sees of a folded fat quarter.
constexpr double kAssumedInches = 9;

double logarithm(double light) { return std::log(light + kDarkest); }

std::array<double, kColours> colours_of(const cv::Vec3d& light) {
  const double r = logarithm(light[0]), g = logarithm(light[1]), b = logarithm(light[2]);
  return {(r + g + b) / 3, r - g, b - g};
}

struct Spread {
  double sum = 0, squares = 0;
  void add(double value) { sum += value, squares += value * value; }
  double deviation(double count) const {
    return std::sqrt(std::max(0.0, squares / count - (sum / count) * (sum / count)));
  }
};

PrintLook from_features(const print::Features& features) {
  PrintLook look;
  const colour::Light light = colour::light_from_lab(features.lab);
  const auto mean = colours_of(cv::Vec3d(light.r, light.g, light.b));
  std::copy(mean.begin(), mean.end(), look.mean.begin());
  // Of a print whose values range widely, no two pieces are of the same colour.
  const double crop = 0.02 + 0.0015 * features.value_range;
  for (int k = 0; k < kColours; ++k) look.variance[k] = crop * crop;
  return look;
}

}  // namespace

cv::Mat light_of(const cv::Mat& srgb) {
  static const std::array<float, 256> kTable = [] {
    std::array<float, 256> table{};
    for (int v = 0; v < 256; ++v) table[v] = static_cast<float>(colour::decoded(static_cast<std::uint8_t>(v)));
    return table;
  }();
  cv::Mat light(srgb.size(), CV_32FC3);
  for (int row = 0; row < srgb.rows; ++row) {
    const std::uint8_t* from = srgb.ptr(row);
    float* to = light.ptr<float>(row);
    for (int k = 0; k < 3 * srgb.cols; ++k) to[k] = kTable[from[k]];
  }
  return light;
}

void soften(cv::Mat& light, double pixels) { cv::GaussianBlur(light, light, {}, kSoftened * pixels); }

Look look_of(const cv::Mat& light, const cv::Mat& mask) {
  cv::Vec3d sum;
  static thread_local std::vector<std::array<double, 3>> pixels;  // value, red over green, blue over green
  pixels.clear();
  Spread value, red, blue;
  for (int row = 0; row < light.rows; ++row) {
    const auto* pixel = light.ptr<cv::Vec3f>(row);
    const std::uint8_t* in = mask.ptr(row);
    for (int column = 0; column < light.cols; ++column) {
      if (in[column] == 0) continue;
      const cv::Vec3f& p = pixel[column];
      sum += cv::Vec3d(p);
      const double r = logarithm(p[0]), g = logarithm(p[1]), b = logarithm(p[2]);
      pixels.push_back({0.3 * r + 0.6 * g + 0.1 * b, r - g, b - g});
      value.add(pixels.back()[0]);
      red.add(r - g);
      blue.add(b - g);
    }
  }
  if (pixels.empty()) return {};
  const auto count = static_cast<double>(pixels.size());
  double third = 0, with_red = 0, with_blue = 0;
  for (const auto& [v, r, b] : pixels) {
    const double away = v - value.sum / count;
    third += away * away * away;
    with_red += away * r;
    with_blue += away * b;
  }
  const auto signed_root = [](double product) { return std::copysign(std::sqrt(std::abs(product)), product); };
  const auto mean = colours_of(sum / count);
  return {mean[0],
          mean[1],
          mean[2],
          value.deviation(count),
          red.deviation(count),
          blue.deviation(count),
          std::cbrt(third / count),
          signed_root(with_red / count),
          signed_root(with_blue / count)};
}

PrintLook print_look(const print::Print& print, const photo::Picture& swatch, double inches, double pixels_per_inch) {
  if (swatch.empty()) return from_features(print.features);
  const double width = print.swatch_width ? print.swatch_width->inches() : kAssumedInches;
  const double scale = pixels_per_inch * width / swatch.columns;
  cv::Mat light = light_of(photo::view(swatch));
  if (scale < 1) cv::resize(light, light, {}, scale, scale, cv::INTER_AREA);
  const double own_pixels = scale < 1 ? pixels_per_inch : swatch.columns / width;
  soften(light, own_pixels / pixels_per_inch);
  const int side = std::clamp(static_cast<int>(inches * own_pixels), 2, std::min(light.cols, light.rows));
  const cv::Mat all(side, side, CV_8U, cv::Scalar(255));
  constexpr int kPieces = 60;
  Rng rng(Seed{1});
  std::array<Spread, kLooks> spread;
  for (int piece = 0; piece < kPieces; ++piece) {
    const cv::Rect at(static_cast<int>(rng.below(light.cols - side + 1)),
                      static_cast<int>(rng.below(light.rows - side + 1)), side, side);
    const Look look = look_of(light(at), all);
    for (int k = 0; k < kLooks; ++k) spread[k].add(look[k]);
  }
  PrintLook look;
  look.texture = true;
  for (int k = 0; k < kLooks; ++k) {
    look.mean[k] = spread[k].sum / kPieces;
    look.variance[k] = std::pow(spread[k].deviation(kPieces), 2);
  }
  // The whole swatch is a fairer mean than pieces of it.
  const Look whole = look_of(light, cv::Mat(light.size(), CV_8U, cv::Scalar(255)));
  for (int k = 0; k < kColours; ++k) look.mean[k] = whole[k];
  return look;
}

}  // namespace farflung::wall
