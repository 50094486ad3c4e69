#include "simulator/surface.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/camera.hpp"
#include "simulator/field.hpp"
#include "simulator/light.hpp"

namespace farflung::simulator {
namespace {

// Boards a hand wide, each of its own shade, with long grain.
cv::Mat boards(const Surface& surface, const Tile& tile, Rng& rng) {
  const cv::Size size = tile.pixels();
  const int count = std::max(2, cvRound(tile.height / 4.2));
  cv::Mat grain = drawn_out(
      deviates({std::max(2, cvRound(tile.width / 5)), std::max(4, std::min(size.height, cvRound(tile.height / 0.05)))},
               rng),
      size);
  grain +=
      1.2 *
      drawn_out(deviates({std::max(2, cvRound(tile.width / 9)), std::max(4, cvRound(tile.height / 0.3))}, rng), size);
  grain = stirred(grain, tile, 6, 0.25, rng);
  for (int k = 0; k < count; ++k) {
    const int top = size.height * k / count, bottom = size.height * (k + 1) / count;
    grain.rowRange(top, bottom) += rng.between(-1.6, 1.6);
    grain.rowRange(std::max(top, bottom - std::max(1, cvRound(0.035 * tile.pixels_per_inch))), bottom) -= 9.0;
  }
  grain.convertTo(grain, CV_32F, 0.055, 0.5);
  return dyed(grain, {mixed(surface.ink, 0x000000, 0.5), surface.ink, mixed(surface.ink, 0xffffff, 0.4)});
}

/// Lines an inch apart both ways, as on a cutting mat.
void rule(cv::Mat& picture, const Tile& tile, Ink ink) {
  constexpr double kWidth = 0.035;  // inches
  const double step = tile.pixels_per_inch, width = kWidth * step;
  const cv::Vec3f line(linear_from_srgb(ink.red / 255.0), linear_from_srgb(ink.green / 255.0),
                       linear_from_srgb(ink.blue / 255.0));
  // How much of the pixel from `at` on a line covers.
  const auto covered = [&](int at) {
    const double from = std::fmod(at, step);
    return std::clamp(width - from, 0.0, 1.0) + std::clamp(from + 1 - step, 0.0, 1.0);
  };
  for (int row = 0; row < picture.rows; ++row) {
    auto* pixels = picture.ptr<cv::Vec3f>(row);
    for (int column = 0; column < picture.cols; ++column) {
      const auto share = static_cast<float>(std::min(1.0, std::max(covered(row), covered(column))));
      pixels[column] = pixels[column] * (1 - share) + line * share;
    }
  }
}

}  // namespace

cv::Mat surface_seen(const Surface& surface, const cv::Matx33d& photo_from_table, cv::Size pixels, Seed seed) {
  Rng rng(seed);
  const cv::Point2d middle = projected(photo_from_table.inv(), {pixels.width / 2.0, pixels.height / 2.0});
  const cv::Point2d here = projected(photo_from_table, middle),
                    there = projected(photo_from_table, middle + cv::Point2d(1, 0));
  const double per_inch = std::hypot(here.x - there.x, here.y - there.y);
  Tile tile{26, 26, std::min(per_inch, 44.0)};
  cv::Mat picture;
  if (surface.kind == Surface::Kind::wood) {
    picture = boards(surface, tile, rng);
  } else {
    picture = cv::Mat(tile.pixels(), CV_32FC3);
    picture.setTo(cv::Scalar(linear_from_srgb(surface.ink.red / 255.0), linear_from_srgb(surface.ink.green / 255.0),
                             linear_from_srgb(surface.ink.blue / 255.0)));
    cv::Mat smudges = 1 + surface.unevenness * 2 * (clouds(tile, 3, 5, 0.6, rng) - 0.5), three;
    smudges += 0.4 * surface.unevenness * deviates(smudges.size(), rng);
    cv::merge(std::vector<cv::Mat>{smudges, smudges, smudges}, three);
    picture = picture.mul(three);
  }
  if (surface.kind == Surface::Kind::mat) {
    const bool dark = surface.ink.red + surface.ink.green + surface.ink.blue < 3 * 128;
    rule(picture, tile, mixed(surface.ink, dark ? 0xffffff : 0x000000, 0.4));
  }
  // The table goes on and on: a mirrored repeat has no edge.
  const double scale = picture.cols / tile.width;
  const cv::Matx33d table_from_tile(1 / scale, 0, 0.5 / scale, 0, 1 / scale, 0.5 / scale, 0, 0, 1);
  cv::Mat seen;
  cv::warpPerspective(picture, seen, cv::Mat(photo_from_table * table_from_tile), pixels, cv::INTER_LINEAR,
                      cv::BORDER_REFLECT);
  return seen;
}

}  // namespace farflung::simulator
