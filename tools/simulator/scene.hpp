// What lies on the table, in inches: cloths on a surface.
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "simulator/fabric.hpp"
#include "simulator/paper.hpp"
#include "simulator/rim.hpp"

namespace farflung::simulator {

/// One piece of cloth lying flat.
struct Placed {
  enum class Edge { cut, pinked, folded };

  Fabric fabric;
  cv::Point2d centre;            ///< on the table
  double width = 6, height = 8;  ///< of the cloth's outer rectangle, pinked tips included
  double degrees = 0;            ///< turned clockwise
  Edge edge = Edge::cut;
  cv::Point2d from;         ///< where in the print's repeat its top left corner falls
  double thickness = 0.02;  ///< how far it stands off the table: the width of its shadow
  bool creased = false;     ///< it was folded in quarters: two creases cross it
  double waviness = 0.015;  ///< inches by which its sides stray inward from straight lines
  double ripples = 0.015;   ///< light and shade of its not lying quite flat, about its mean
};

struct Surface {
  enum class Kind { plain, wood, mat };

  Kind kind = Kind::plain;
  Ink ink = 0xe8e4dc;
  double unevenness = 0.01;  ///< smudges, as a share of its light
};

struct Scene {
  std::vector<Placed> cloths;  ///< later ones lie over earlier ones
  Surface surface;
  std::vector<Paper> papers;  ///< printed pages; the camera frames them too
  std::vector<Stray> strays;  ///< over everything, at the rim of the picture
  Seed seed;
};

/// The outer corners of a cloth on the table, clockwise from the print's own top left.
std::vector<cv::Point2d> corners_of(const Placed& cloth);

/// `fabrics` in rows of `across`, in reading order: each `width` x `height`, `gap` apart, turned by up to `askew`
/// degrees.
Scene in_rows(const std::vector<Fabric>& fabrics, int across, double width, double height, double gap, double askew,
              Seed seed);

}  // namespace farflung::simulator
