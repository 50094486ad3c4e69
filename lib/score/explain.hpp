// What a layout looks like to someone who stands before it: the facts behind the score, for words to be made of.
#pragma once

#include <vector>

#include "score/measure.hpp"

namespace farflung::score {

/// How a print's copies lie. A copy is a placed block in which the print fills a slot that may not touch.
struct PrintSpacing {
  int print = 0;
  int copies = 0;
  double nearest = 0;                        ///< pitches between the closest two; 0 for fewer than two
  int nearest_a = kNone, nearest_b = kNone;  ///< their cells
  double ideal = 0;  ///< how far apart the closest two would be in the best even spacing known; 0: as nearest
};

/// A region that leans one way, seen through a window of `scale` pitches around a cell.
struct RegionCast {
  int cell = kNone;  ///< kNone: no region has a cast
  /// Pitches.
  double scale = 0;
  Reading cast{};       ///< (1.5 L*, a*, b*, 20 busyness) above the quilt's mean
  colour::Lab lab;      ///< how the region reads
  colour::Lab mean;     ///< how the quilt reads
  double strength = 0;  ///< its square over the mean of its square in a shuffle: 1 is usual
};

/// Copies of a print at equal steps along a straight line: the eye reads it before any distance.
struct EqualSteps {
  int print = 0;
  std::vector<int> cells;  ///< three or more, in order
  double step = 0;         ///< pitches
};

/// A row, column or diagonal whose mean stands out from a shuffle's by more than two standard deviations.
struct LineCast {
  enum class What { value, red_green, yellow_blue };

  Line::Way way = Line::Way::row;
  std::vector<int> cells;
  What what = What::value;
  double above = 0;       ///< mean L*, a* or b* of the line less the quilt's
  double deviations = 0;  ///< the same in standard deviations of a shuffle
};

/// A strong accent, few copies far from the quilt's mean, where it draws the eye too much.
struct AccentInLine {
  /// centre_line: on the middle row or column; shared_line: two of its copies in one row, column or diagonal.
  enum class Where { centre_line, shared_line };

  int print = 0;
  Where where = Where::centre_line;
  Line::Way way = Line::Way::row;
  std::vector<int> cells;
};

/// All that there is to say of a layout; lists are empty where nothing stands out.
struct Explanation {
  std::vector<PrintSpacing> spacings;  ///< one for each print
  RegionCast strongest;
  std::vector<EqualSteps> equal_steps;  ///< longest first, then the shortest steps
  std::vector<LineCast> lines;          ///< strongest first
  std::vector<AccentInLine> accents;
};

/// `measure` holds for every arrangement that leaves the same cells empty.
Explanation explain(const Measure& measure, const setting::Arrangement& arrangement);

/// How the region around each cell that holds a block leans, in the order of Measure::places(); none where no block
/// differs from another. `scale` as in RegionCast. Costs O(n^2) for n blocks.
std::vector<RegionCast> region_casts(const Measure& measure, const setting::Arrangement& arrangement, double scale);

/// Whether a print is a strong accent: in at most an eighth of the blocks (and six), dE00 30 or more from the quilt's
/// mean.
bool is_accent(const Measure& measure, int print);

/// What is to be said about accents alone; `explain` tells it too.
std::vector<AccentInLine> accents_in_line(const Measure& measure, const setting::Arrangement& arrangement);

/// How far apart the closest two of `copies` blocks can be in these places, as far as is known: the best of all
/// lattices on full straight grids, and of a search that spreads them one by one and then moves each while that helps.
/// Pitches.
double even_spacing(const Places& places, int copies);

}  // namespace farflung::score
