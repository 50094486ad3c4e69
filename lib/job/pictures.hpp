// A quilt's own pictures, made small for a screen.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// The bytes of a JPEG, its longer side at most `longest` pixels.
///
/// `file` is one within swatches/ or photos/: no quilt has to be read for it. Photographs come upright, their colours
/// sRGB.
Result<std::string> swatch_picture(const std::string& folder, const std::string& file, int longest);
Result<std::string> photograph_picture(const std::string& folder, const std::string& file, int longest);

}  // namespace farflung::job
