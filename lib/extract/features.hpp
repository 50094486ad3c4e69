// How a print reads, measured on its swatch.
#pragma once

#include <optional>

#include "photo/picture.hpp"
#include "print/print.hpp"

namespace farflung::extract {

/// Measures every feature on the swatch picture, which spans `inches` across the cloth where that is known (scale is
/// given only then). Features named in `before.by_hand` are kept as they are, and stay by hand.
print::Features features_of(const photo::Picture& swatch, std::optional<double> inches = {},
                            const print::Features& before = {});

/// CIELAB of the mean linear light of all pixels.
colour::Lab mean_colour(const photo::Picture& swatch);

/// L* between the 5th and the 95th percentile of pixels.
double value_range(const photo::Picture& swatch);

/// 0 plain .. 1 loud: 1 - exp(-m / 12), m the mean dE (1976) of the cloth, as seen from a step away, from its own
/// surroundings: a disc of 3/4 in where inches are known, else of 1/12 of the swatch.
double busyness(const photo::Picture& swatch, std::optional<double> inches);

}  // namespace farflung::extract
