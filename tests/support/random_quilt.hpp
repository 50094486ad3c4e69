// Whole quilts drawn by lot, every one valid: the worlds of property tests.
#pragma once

#include <vector>

#include "base/rng.hpp"
#include "quilt/quilt.hpp"

namespace farflung::support {

/// What to draw; everything else is left to chance.
struct Wanted {
  setting::Setting::Kind kind = setting::Setting::Kind::straight;
  int rows = 4, columns = 4;
  int prints = 6;
  std::vector<block::Pattern> patterns;  ///< empty: the square
  bool alternate = false;                ///< the patterns take turns over the cells
  bool dealt_evenly = false;             ///< slots are dealt from a pack of all prints, not by lot
  int spares = 0;
  int holes = 0;
  int kept = 0;
  bool sashing = false;
  bool borders = false;
  int background = quilt::kNone;  ///< the print of every slot named background
};

/// Prints P01 ..., blocks B001 ..., every cell filled but the holes, turns by lot.
quilt::Quilt random_quilt(Seed seed, const Wanted& wanted);

/// So many rows and columns of one pattern in so many prints, nothing else.
quilt::Quilt quilt_of_one_pattern(Seed seed, const block::Pattern& pattern, int rows, int columns, int prints);

/// As random_quilt, with no print in any block's slot.
quilt::Quilt undealt_quilt(Seed seed, const Wanted& wanted);

/// Each print a palette of three colours about its mean, in shares of eighths, and to most a scale.
void give_looks(quilt::Quilt& quilt, Seed seed);

}  // namespace farflung::support
