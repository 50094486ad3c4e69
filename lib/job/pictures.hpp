// A quilt's own pictures, made small for a screen.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// The bytes of a JPEG, its longer side at most `longest` pixels.
///
/// A print is named by its id, a photograph by its file within photos/. Photographs come upright, their colours sRGB.
Result<std::string> swatch_picture(const std::string& folder, const std::string& print, int longest);
Result<std::string> photograph_picture(const std::string& folder, const std::string& file, int longest);

}  // namespace farflung::job
