// What is counted on when cloth is bought: stated once, shown with every amount, adjustable.
#pragma once

#include <optional>

#include "base/length.hpp"
#include "quilt/quilt.hpp"

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
  std::optional<Length> batting_over;         ///< on each side; none: less than the backing's by batting_less
  Length batting_less = Length::inches(1);    ///< half the backing's where that reaches no farther than twice this
  Length batting_width = Length::inches(90);  ///< of batting by the yard
  Length mitre_extra = Length::inches(2);     ///< of a mitred border's strip beyond its outer edge, in all
  Length sleeve_cut = Length::inches(9);      ///< width of the strip that becomes the hanging sleeve
  bool backing_upright = false;               ///< the backing's print must stand upright
  /// least: whichever way takes less cloth; across: parallel to the quilt's top edge; along: up and down.
  enum class BackingSeam { least, across, along } backing_seams = BackingSeam::least;
};

/// The options of a quilt that is measured so: as above, or round in centimetres. Cloth sold as 110 cm wide is counted
/// 100 cm usable: never wider than the 40 in of the trade's inches.
YardageOptions usual_yardage(quilt::Units units);

/// How far the batting reaches beyond the top on each side under a backing that reaches `backing_over`.
Length batting_beyond(Length backing_over, const YardageOptions& options);

}  // namespace farflung::cloth
