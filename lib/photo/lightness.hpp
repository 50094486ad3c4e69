// A picture as nothing but light and dark, for a gradation to follow.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"

namespace farflung::photo {

/// One number a pixel; rows are values.size() / columns.
struct Lightness {
  int columns = 0;
  std::vector<float> values;  ///< L* / 100, 0..1, row by row from the top left
};

/// Of a file as decode() reads it, shrunk until its longer side is at most 512: far finer than the patches of a quilt
/// are, and what is within a patch is averaged anyway. Problems are those of decode().
Result<Lightness> lightness_of(const std::string& file);

}  // namespace farflung::photo
