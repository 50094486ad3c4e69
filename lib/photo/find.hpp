// Where the cloth is in a photograph.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "photo/backdrop.hpp"
#include "photo/picture.hpp"

namespace farflung::photo {

/// One piece of cloth as it lies in a picture.
struct Found {
  Corners corners{};     ///< outer corners, pinked tips included
  double depth = 0;      ///< pixels: how far inward the cut edge wanders (pinking, fraying)
  double sureness = 0;   ///< 0..1
  std::string doubt;     ///< why it is not sure; empty where it is
  bool cut_off = false;  ///< a corner lies at the rim of the picture
  bool whole = false;    ///< the cloth fills the frame: no edge of it is seen
};

/// The plain surface behind the cloth.
struct SurfaceSeen {
  Backdrop backdrop;  ///< how it would be seen everywhere, were it bare
  bool pale = false;  ///< nearly as light as anything in the picture, and of little colour
};

/// What was found, in reading order; or why nothing was.
struct Findings {
  std::vector<Found> cloths;
  std::vector<Corners> pieces;  ///< all that stands out from the surface, cloth or not: a sheet of paper may be one
  std::string nothing;          ///< the reason, where there are none
  std::optional<SurfaceSeen> surface;  ///< where there is one
};

/// What a sheet or a chart tells before any cloth is looked for.
struct Known {
  std::optional<Corners> taken_up;  ///< where it lies
  /// Homography, row by row: pixels from places on the table, of any turn and size.
  std::optional<std::array<double, 9>> picture_from_table;
};

/// Looks for rectangles of cloth on a plain surface, each turned a little and seen at a slant; where the rim of the
/// picture is no plain surface, or nothing on it has straight edges, the cloth fills the frame; so too where all that
/// has is of few looks, as the checks of one print are. One plain colour is cloth that fills the frame where no table
/// and no lamp has such a one, else an empty surface, and nothing. Corners are good to a fraction of a pixel where the
/// edges are sharp. What lies within `taken_up`, a sheet or a chart, is no cloth.
Findings find_cloths(const Picture& picture, const Known& known = {});

/// Reading order of pieces seen by their corners: rows from the top, each from the left, as seen by someone who
/// stands square to the pieces. Gives the indices in that order.
std::vector<std::size_t> reading_order(const std::vector<Corners>& pieces);

}  // namespace farflung::photo
