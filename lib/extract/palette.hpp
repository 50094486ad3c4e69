// The few colours that a print is made of.
#pragma once

#include <vector>

#include "photo/picture.hpp"
#include "print/print.hpp"

namespace farflung::extract {

/// Up to six colours, the largest share first; shares sum to 1 and no two colours are within dE00 3 of each other.
/// Pixels are clustered in CIELAB (k-means from spread-out seeds, then the pair whose merging costs least by Ward's
/// measure with dE00 as distance, until six are left); the flat parts of motifs say what the colours are. What a blur
/// mixes on motifs' edges is no colour of its own: it counts to the colours that it is mixed of, by their parts in
/// light. Deterministic.
std::vector<print::PaletteColour> palette_of(const photo::Picture& swatch);

}  // namespace farflung::extract
