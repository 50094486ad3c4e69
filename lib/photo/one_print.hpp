// Motifs of one print that look like many pieces of cloth. Internal to photo.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "photo/sides.hpp"
#include "photo/surface.hpp"

namespace farflung::photo {

/// Whether `pieces`, outlines in pixels of `rgb` (CV_8UC3), are the checks or the motifs of one print that fills the
/// picture: small, and with few looks among them, the light that falls on `surface` set aside. Cloths that are laid out
/// together differ.
bool are_of_one_print(const std::vector<Quad>& pieces, const cv::Mat& rgb, const Surface& surface);

}  // namespace farflung::photo
