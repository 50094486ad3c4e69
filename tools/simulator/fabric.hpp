// A quilting cotton of our own making, and the truth about it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <opencv2/core.hpp>

#include "base/rng.hpp"
#include "print/print.hpp"
#include "simulator/canvas.hpp"

namespace farflung::simulator {

/// What a bolt is told by. The same fabric is the same cloth everywhere, at every resolution.
struct Fabric {
  std::string name;
  std::string design;     ///< one of designs()
  std::vector<Ink> inks;  ///< the ground first; two or more
  double motif = 1;       ///< inches
  Seed seed;              ///< where its motifs fall
};

/// One repeat of the woven, printed cloth at about `pixels_per_inch` (5..300): CV_32FC3 linear RGB light, red first. It
/// wraps round at its edges. About 30 ms for a repeat of 800 x 800 pixels.
cv::Mat cloth(const Fabric& fabric, double pixels_per_inch);

/// Its repeat in inches, at a resolution.
Tile tile_of(const Fabric& fabric, double pixels_per_inch);

/// A piece of it, `size` inches, its top left corner `from` inches into the repeat, upright.
cv::Mat cut(const Fabric& fabric, cv::Rect2d piece, double pixels_per_inch);

/// A window of a picture that wraps round, its top left pixel at `from`.
cv::Mat window(const cv::Mat& repeat, cv::Point from, cv::Size size);

/// What an ideal eye would measure of the cloth in daylight.
struct Truth {
  colour::Lab lab;                            ///< of the mean linear light
  std::vector<print::PaletteColour> palette;  ///< of the pixels of the print at 60 to the inch, nearest ink by ink
  std::optional<double> scale;                ///< as print::Features::scale is defined; none of a print without motifs
  print::Direction direction;
};
Truth truth_of(const Fabric& fabric);

/// `count` fabrics, all different, over all designs, values from light to dark. Names are "F01", "F02" ...
std::vector<Fabric> bundle(int count, Seed seed);

}  // namespace farflung::simulator
