// Photographs and swatches, made small for a screen.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// A picture as it goes to a screen.
struct ScreenPicture {
  std::string jpeg;           ///< its bytes
  int columns = 0, rows = 0;  ///< pixels of the file itself, upright: what the corners of a photograph are counted in
};

/// A JPEG of any file that photo::decode reads, upright, its colours sRGB, its longer side at most `longest` pixels.
Result<ScreenPicture> screen_picture(const std::string& file, int longest);

/// The same of `file` within swatches/ or photos/: no quilt has to be read for it.
Result<ScreenPicture> swatch_picture(const std::string& folder, const std::string& file, int longest);
Result<ScreenPicture> photograph_picture(const std::string& folder, const std::string& file, int longest);

}  // namespace farflung::job
