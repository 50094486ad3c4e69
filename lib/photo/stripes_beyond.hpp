// Stripes of a cloth that lie beyond a stripe of the surface's own colour. Internal to photo.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "photo/sides.hpp"
#include "photo/surface.hpp"

namespace farflung::photo {

/// `quad` widened over the stripes that go on beyond two opposite sides of it: behind a narrow gap, from end to end of
/// the side and no farther, and of colours that lie within `quad`. None where no such stripes are. A neighbour laid in
/// a row goes on in the same way, but shows other colours. `cloth` is CV_8U, what is unlike the surface; `rgb` is
/// CV_8UC3 (R, G, B), as large; the quad is in their pixels.
std::optional<Quad> widened_over_stripes(const Quad& quad, const cv::Mat& cloth, const cv::Mat& rgb);

/// Whether what was told for surface within `quad` is of another hue than the surface in any shade: then it is cloth
/// too, as a stripe that is nearly of the surface's colour. No where little of it is seen. `cloth` and `rgb` as above,
/// `surface` stretched over them.
bool gaps_are_dyed(const Quad& quad, const cv::Mat& cloth, const cv::Mat& rgb, const Surface& surface);

}  // namespace farflung::photo
