// Cloth whose outermost checks or stripes are of the surface's own colour, told by where the others end. Internal to
// photo.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "photo/sides.hpp"

namespace farflung::photo {

/// The quadrilateral that the stripes of `region` (CV_8U, set where there is cloth) end at, where its corners are
/// missing, as a gingham's are on a table of its own white. None where all of its outline is borne out, or where there
/// are no such stripes.
std::optional<Quad> quad_by_stripe_ends(const cv::Mat& region);

}  // namespace farflung::photo
