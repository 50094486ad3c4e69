// What is counted on when cloth is bought: stated once, shown with every amount, adjustable.
#pragma once

#include <optional>

#include "base/length.hpp"

namespace farflung::cloth {

/// What is lost between the bolt and the quilt, and how wide cloth and batting come.
struct YardageOptions {
  Length usable_width = Length::inches(40);   ///< of cloth by the yard, selvages off; longer strips are joined
  double shrinkage = 0.03;                    ///< of the length, where the cloth is washed before it is cut
  bool prewashed = false;                     ///< it will be washed first: buy `shrinkage` more
  Length squaring = Length::inches(0.5);      ///< lost when the cut end is straightened, once a length
  Length binding_extra = Length::inches(10);  ///< corners and the ending, beyond the perimeter
  Length backing_seam = Length::inches(0.5);  ///< allowance on each side of a seam of the backing
  Length backing_over = Length::inches(4);    ///< on each side, where the quilt does not say
  std::optional<Length>
      batting_over;  ///< on each side; none: an inch less than the backing's, half where that is small
  Length batting_width = Length::inches(90);  ///< of batting by the yard
  Length sleeve_cut = Length::inches(9);      ///< width of the strip that becomes the hanging sleeve
  bool backing_upright = false;               ///< the backing's print must stand upright
  /// least: whichever way takes less cloth; across: parallel to the quilt's top edge; along: up and down.
  enum class BackingSeam { least, across, along } backing_seams = BackingSeam::least;
};

}  // namespace farflung::cloth
