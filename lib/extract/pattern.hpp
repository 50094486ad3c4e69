// What repeats in a print, and which way it runs.
#pragma once

#include <optional>

#include "photo/picture.hpp"
#include "print/print.hpp"

namespace farflung::extract {

/// A print's repeats as pixels of its swatch.
struct Repeat {
  std::optional<double> size;  ///< of the motif: the shortest step after which the print looks like itself again
  print::Direction direction;  ///< stripe with its angle, or none
};

/// By the autocorrelation of the swatch in CIELAB (its first peak beside the middle) and by the structure tensor
/// (Bigun and Granlund 1987): a stripe is a print nearly all of whose edges run one way. Prints without contrast, and
/// those that never repeat, have no size.
Repeat repeat_of(const photo::Picture& swatch);

}  // namespace farflung::extract
