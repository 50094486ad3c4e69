// Two swatches laid over each other.
#pragma once

#include <optional>

#include "photo/picture.hpp"
#include "print/pairs_alike.hpp"

namespace farflung::extract {

/// A swatch made small, to be laid over others.
struct Look {
  photo::Picture picture;
  std::optional<double> inches;  ///< that the picture spans from left to right, where known
};
Look look_of(const photo::Picture& swatch, std::optional<double> inches);

/// By normalised cross-correlation in CIELAB, of what changes faster than light does: contrast and cast count nothing.
/// The best of all places where the looks share a quarter of the smaller one at least, and of all zooms by which two
/// photographs can differ: a third either way where both know their inches, else four fifths. Nothing is turned, for
/// whoever photographs a print lays it one way up. 20 ms with inches, 60 without.
print::Overlay laid_over(const Look& first, const Look& second);

}  // namespace farflung::extract
