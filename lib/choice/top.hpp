// The top as cloth lies on it: every patch, whose print it is, what it meets.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::choice {

using block::kNone;

/// A patch of a block or of the frame, as it lies on the finished top.
struct TopPatch {
  Polygon polygon;
  int print = kNone;        ///< kNone where it is not dealt yet
  int pattern = kNone;      ///< of a block's patch; kNone in the frame
  int slot = kNone;         ///< of a block's patch, in its pattern
  int cell = kNone;         ///< of a block's patch
  int frame_patch = kNone;  ///< index into Plan::frame
};

/// Blocks that lie in cells, and the frame; empty cells have no patches.
std::vector<TopPatch> top_patches(const quilt::Quilt& quilt, const setting::Plan& plan);

/// How much of the top each print fills, by print; the shares of what is dealt sum to 1, or all are 0.
std::vector<double> print_shares(const std::vector<TopPatch>& patches, std::size_t prints);

/// For each print, the inches of seam along which the patches that are `mine` meet patches of it that are not.
std::vector<double> seams_by_print(const std::vector<TopPatch>& patches, const std::vector<bool>& mine,
                                   std::size_t prints);

/// For each print, the inches of the top's outer edge that are its.
std::vector<double> edge_by_print(const std::vector<TopPatch>& patches, const setting::Plan& plan, std::size_t prints);

}  // namespace farflung::choice
