// Cloth of its surface's own colour, of which little but its motifs is seen. Internal to photo.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "photo/sides.hpp"

namespace farflung::photo {

/// Rough outlines round pieces of `cloth` (CV_8U, set where there is some) that lie near one another and together fill
/// a quadrilateral out to its rim, as the motifs of one print do; nearer gatherings first. None reaches the rim of the
/// picture, nor covers less than `least` pixels.
std::vector<Quad> gathered_motifs(const cv::Mat& cloth, double least);

}  // namespace farflung::photo
