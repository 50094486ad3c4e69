// One set of fabrics in two photographs.
#pragma once

#include <vector>

#include "print/pairs_alike.hpp"

namespace farflung::print {

/// Two prints, by their index, whose swatches were laid over each other.
struct Laid {
  std::size_t first = 0, second = 0;
  Overlay overlay;
};

/// For each pair, whether its two photographs show one set of fabrics and it fits in. From one photograph of a set to
/// the other every cloth is zoomed alike, whatever its width; sister prints and strangers are not. A zoom holds for two
/// photographs where at least four pairs lie well over each other at it, of which no print is in two, and these are
/// half of the prints of the photograph that has fewer.
std::vector<bool> retaken(const std::vector<Print>& prints, const std::vector<Laid>& laid);

}  // namespace farflung::print
