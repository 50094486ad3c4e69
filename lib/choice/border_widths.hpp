// Border widths that make a top reach a wanted size.
#pragma once

#include <string>
#include <vector>

#include "choice/sizes.hpp"

namespace farflung::choice {

/// One way to choose the widths.
struct BorderWidths {
  enum class Reaches { width, height, nearest } reaches = Reaches::nearest;  ///< nearest: between the two

  std::vector<Length> widths;  ///< finished, from the inside out; each at least one step
  Length width, height;        ///< of the finished top
  Length wider, taller;        ///< than wanted; below zero: narrower, shorter
  /// "a border of 5 in makes 60 x 72 in, exactly what is wanted".
  std::string says;
};

/// The ways found to reach one wanted size.
struct BordersReport {
  Length inner_width, inner_height;  ///< of the top within all borders
  std::vector<BorderWidths> ways;    ///< the one nearest to the wanted size first; one only where it reaches both
  std::vector<std::string> notes;    ///< what mitred corners ask for; strips that would make up an uneven rest
};

/// Widths for the quilt's borders (for one border of its own where it has none), all sides alike. They keep the
/// proportions that the borders have to each other; each is a whole number of steps, the outermost takes the rest, so
/// that the finished size misses the one aimed at by at most a step. A top that is as large already is a problem.
Result<BordersReport> borders_to_reach(const quilt::Quilt& quilt, const WantedSize& wanted,
                                       Length step = Length::inches(0.25));

/// The quilt with these border widths; borders that it lacks are added inside the others, without a print.
quilt::Quilt with_border_widths(const quilt::Quilt& quilt, const std::vector<Length>& widths);

}  // namespace farflung::choice
