// From what is told from the surface to pieces of cloth, each with its outline. Internal to photo.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "photo/companions.hpp"
#include "photo/told.hpp"

namespace farflung::photo {

/// From how sure a piece stands for itself.
constexpr double kSure = 0.7;
/// How sure a piece is: 0..1, by its support and its fit.
double sureness(const Piece& piece);
/// Whether a piece is seen all the way round, by itself.
bool is_plain(const Piece& piece);

/// The pieces of cloth in a picture.
struct Pieces {
  std::vector<Piece> all;
  double explained = 0;  ///< share of what was told for cloth that lies in them
};

/// Every region of `told.cloth` is taken apart at the gaps between cloths; what are motifs or stripes of one cloth, on
/// a ground of the surface's own colour, is put together. `small` is the picture in which `told` was told, CV_8UC3 (R,
/// G, B).
Pieces pieces_in(const Told& told, const cv::Mat& small, const Ground& ground);

}  // namespace farflung::photo
