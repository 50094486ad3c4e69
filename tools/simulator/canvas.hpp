// Where a print is drawn: a picture that wraps round at its edges, as cloth repeats.
#pragma once

#include <cstdint>
#include <vector>

#include <opencv2/core.hpp>

#include "base/rng.hpp"

namespace farflung::simulator {

/// A dye, as sRGB.
struct Ink {
  std::uint8_t red = 0, green = 0, blue = 0;
  constexpr Ink() = default;
  constexpr Ink(std::uint32_t hex)  // NOLINT(google-explicit-constructor): 0x3a6ea5 reads as a colour
      : red(static_cast<std::uint8_t>(hex >> 16)),
        green(static_cast<std::uint8_t>(hex >> 8)),
        blue(static_cast<std::uint8_t>(hex)) {}
  friend bool operator==(Ink, Ink) = default;
};

/// `share` of the second over the first.
Ink mixed(Ink first, Ink second, double share);

/// One repeat of a print, at a resolution. Lengths are inches on the cloth.
struct Tile {
  double width = 0, height = 0;
  double pixels_per_inch = 0;
  cv::Size pixels() const;
};

/// OpenCV draws to 1 / 2^kShift of a pixel.
constexpr int kShift = 5;

/// Corners or a path, in inches.
using Shape = std::vector<cv::Point2d>;

/// Draws shapes with smooth edges; what leaves one side comes in at the other.
class Canvas {
 public:
  Canvas(const Tile& tile, Ink ground);

  void fill(const Shape& shape, Ink ink);
  void dot(cv::Point2d centre, double radius, Ink ink);
  void ring(cv::Point2d centre, double radius, double width, Ink ink);
  /// A brush stroke along `path`, its width running from `start` to `end` by way of `middle`, its ends round.
  void stroke(const Shape& path, double start, double middle, double end, Ink ink);
  void line(const Shape& path, double width, Ink ink) { stroke(path, width, width, width, ink); }

  /// CV_32FC3 linear RGB of tile.pixels().
  cv::Mat linear() const;
  const Tile& tile() const { return tile_; }

 private:
  Tile tile_;
  int finer_;
  cv::Point2d scale_;  ///< fine pixels per inch
  cv::Mat picture_;    ///< CV_8UC3 sRGB, red first, `finer_` times as fine as the tile
};

/// A mask drawn like a print: CV_32F 0..1 of tile.pixels(), from shapes painted white on black by `draw`.
cv::Mat mask_of(const Canvas& white_on_black);

/// A place on the tile by chance. Here and wherever several numbers are drawn for one call, each is drawn in a
/// statement of its own: in which order a call's arguments are worked out is the compiler's choice.
cv::Point2d anywhere_on(const Tile& tile, Rng& rng);

/// Places about `apart` inches from each other or more, wrapped round, as many as fit by trial, then pushed apart until
/// they lie evenly; in random order.
Shape scattered(const Tile& tile, double apart, Rng& rng, int trials = 30);
/// Pushes places nearer than 1.5 x `apart` away from each other, a little at a time.
void spread_out(Shape& places, const Tile& tile, double apart);
/// The least distance between two places, wrapped round.
double wrapped_distance(const Tile& tile, cv::Point2d a, cv::Point2d b);

}  // namespace farflung::simulator
