// What repeats in a print, and which way it runs.
#pragma once

#include <optional>

#include "photo/picture.hpp"
#include "print/print.hpp"

namespace farflung::extract {

/// A print's repeats as pixels of its swatch.
struct Repeat {
  std::optional<double> size;  ///< the scale, as print::Features defines it
  print::Direction direction;  ///< stripe with its angle; one-way, up as the swatch lies; or none
};

/// By the autocorrelation of the swatch in CIELAB. Its first ring round the middle lies where the neighbours of a motif
/// lie, tossed ones too; where they stand in rows, the lattice that fits every repeat in sight says it exactly (1 %).
/// A stripe is a print nearly all of whose edges run one way, by the structure tensor (Bigun and Granlund 1987), or in
/// bands one way and the other by turns, as a herringbone's: its period is then two bands. Prints
/// without contrast, and those whose motifs are farther apart than a third of the swatch, have no size. A print whose
/// motifs all stand one way (stands_one_way) is one-way. No picture says which end of a motif is its top: it is taken
/// to be the swatch's.
Repeat repeat_of(const photo::Picture& swatch);

}  // namespace farflung::extract
