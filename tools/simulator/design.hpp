// The designs that prints are made to: each one a way of drawing a repeat with inks.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include <opencv2/core.hpp>

#include "base/rng.hpp"
#include "print/print.hpp"
#include "simulator/canvas.hpp"

namespace farflung::simulator {

/// What a design is drawn with.
struct Brush {
  Tile tile;
  double motif = 1;       ///< inches
  std::vector<Ink> inks;  ///< the ground first
  Rng& rng;
  double scale = 0;  ///< told by the painter, as print::Features::scale is defined; 0 where nothing stands out

  /// So many motifs share the tile; of a print with small ones between, only the large are counted.
  void holds(std::size_t motifs) { scale = std::sqrt(tile.width * tile.height / static_cast<double>(motifs)); }
  Ink ink(std::size_t i) const { return inks[i < inks.size() ? i : inks.size() - 1]; }
};

struct Design {
  std::string name;
  double across = 4, down = 4;  ///< motifs to a repeat
  print::Direction direction;   ///< as printed, along the selvage
  cv::Mat (*paint)(Brush&);     ///< CV_32FC3 linear light of brush.tile.pixels()
};

/// All designs, by family.
const std::vector<Design>& designs();
/// Asserts that there is one of this name.
const Design& design_named(const std::string& name);

// The families.
std::vector<Design> floral_designs();
std::vector<Design> dot_designs();
std::vector<Design> stripe_designs();
std::vector<Design> check_designs();
std::vector<Design> sea_designs();
std::vector<Design> dyed_designs();
std::vector<Design> geometric_designs();
std::vector<Design> tonal_designs();

}  // namespace farflung::simulator
