// Cloths of one picture share their size and lie in rows: what that says of those that are hard to see. Internal to
// photo.
#pragma once

#include <algorithm>
#include <vector>

#include <opencv2/core.hpp>

#include "photo/outline.hpp"
#include "photo/sharpen.hpp"
#include "photo/surface.hpp"

namespace farflung::photo {

/// What is known of a picture before its cloths are.
struct Ground {
  cv::Mat rgb;     ///< CV_8UC3 (R, G, B), smoothed a little against noise
  cv::Mat unlike;  ///< CV_32F, standard deviations from the surface in whatever shade; perhaps smaller than the picture
  Surface surface;
  Lit lit;

  /// Pixels of the picture to one of `unlike`.
  double full_from_small() const { return static_cast<double>(rgb.cols) / unlike.cols; }

  /// At a place in the picture.
  float unlike_at(cv::Point2d p) const {
    return unlike.at<float>(std::clamp(static_cast<int>(p.y / full_from_small()), 0, unlike.rows - 1),
                            std::clamp(static_cast<int>(p.x / full_from_small()), 0, unlike.cols - 1));
  }
};

/// From a rough outline to the cloth's own edges near it; `reach` is the farthest a side may move, as a share of the
/// shortest side. Where no edge is found, the last good outline stands, its support 0 where there never was one.
Outline located(const Quad& rough, const Ground& ground, double reach = 0.06);

/// An outline and what is thought of it.
struct Piece {
  Outline outline;
  double fit = 0;         ///< 0..1: how nearly it is what was told from the surface
  bool supposed = false;  ///< its size and place are its neighbours', not seen all the way round
};

/// Finds what the pieces' common size leaves to be found: cloths merged with their neighbours, cut to pieces by their
/// own motifs, or hardly told from the table. What then overlaps a cloth of the common size is no cloth. Pieces of
/// other sizes stay where they are clear of the rest. A side that lies where the common size does not have it is looked
/// for again where it does. Where there is no common size, nothing is changed.
std::vector<Piece> with_companions(const std::vector<Piece>& pieces, const Ground& ground);

}  // namespace farflung::photo
