// Stripes that were taken for cloths. Internal to photo.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "photo/sides.hpp"

namespace farflung::photo {

/// Much longer than wide.
bool is_strip(const Quad& quad);

/// Whether strips that lie side by side look like the stripes of one cloth: three or more, the colour of each found in
/// another. Strips cut for sewing differ. `rgb` is CV_8UC3, R, G, B.
bool may_be_stripes(const std::vector<Quad>& strips, const cv::Mat& rgb);

}  // namespace farflung::photo
