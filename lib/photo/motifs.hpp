// Cloth of its surface's own colour, of which little but its motifs is seen. Internal to photo.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "photo/region.hpp"

namespace farflung::photo {

/// Rough outlines, each laid round its points by `outline`, of pieces of `cloth` (CV_8U, set where there is some) that
/// lie near one another and together fill a quadrilateral out to its rim, as the motifs of one print do; nearer
/// gatherings first, none twice. None reaches the rim of the picture, nor covers less than `least` pixels and as much
/// round it as its pieces lie apart.
std::vector<Quad> gathered_motifs(const cv::Mat& cloth, double least,
                                  Quad (*outline)(const std::vector<cv::Point>&) = four_corners);

/// Whether two rectangles or more lie apart and cover a quadrilateral but for the gaps between them, as cloths side by
/// side do and the motifs of one do not.
bool lie_side_by_side(const std::vector<Quad>& rectangles, const Quad& quad);

}  // namespace farflung::photo
