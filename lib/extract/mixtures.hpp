// Which colours of a photograph are a print's own, and which its blur has mixed. Internal to extract.
#pragma once

#include <vector>

#include "extract/heaps.hpp"

namespace farflung::extract {

/// Leaves out of `centres` (CIELAB) those that lie between two others, in light, and are hardly ever seen flat: no ink
/// of the print's, but the blurred edges of its motifs.
void drop_mixtures(const std::vector<Heap>& heaps, std::vector<cv::Vec3d>& centres);

/// How much of all there is of each centre, the sum 1. What of a heap is flat is of the nearest; what lies on edges is
/// of the two centres that mix to it, each by its part.
std::vector<double> shares_of(const std::vector<Heap>& heaps, const std::vector<cv::Vec3d>& centres);

}  // namespace farflung::extract
