// One wall whose layout is known: photographed, and judged after it was read.
#pragma once

#include "simulator/wall_photographer.hpp"
#include "wall/group.hpp"

namespace farflung::wall_bench {

/// A quilt, its cloth, its swatches, and a photograph of a wall that is not quite as planned.
struct Wall {
  quilt::Quilt quilt;  ///< as planned
  std::vector<photo::Picture> swatches;
  simulator::WallPhotograph photograph;
  photo::Picture picture;  ///< after JPEG
  photo::Corners corners{};
};

struct Wanted {
  int rows = 6, columns = 7, prints = 20;
  int pattern = 0;  ///< 0 squares, 1 half squares, 2 uneven rails, 3 churn dash
  int swapped = 5, turned = 2;
  cv::Size pixels = {2000, 1500};
};

/// A quilt laid by lot, and its cloth.
struct Made {
  quilt::Quilt quilt;
  std::vector<simulator::Fabric> fabrics;
  std::vector<photo::Picture> swatches;
};
Made quilt_of(const Wanted& wanted, Seed seed);

Wall wall_of(const Wanted& wanted, const simulator::Hanging& hanging, const simulator::Shot& shot, Seed seed);
Wall wall_by_lot(const Wanted& wanted, Seed seed);

/// Pins printed corner cards at these corners, 0 to 3 clockwise from the top left.
void pin_cards(simulator::Hanging& hanging, const std::vector<int>& corners = {0, 1, 2, 3});

struct Tally {
  int cells = 0, right = 0, turns = 0, turns_right = 0, sure = 0, sure_right = 0;
  void operator+=(const Tally& other);
};

/// Blocks of one look count as one; turns where the pattern allows them to be told.
Tally tally_of(const Wall& wall, const wall::WallRead& read);
/// Cells whose every place was read to be of the print that is there.
Tally tally_of(const Wall& wall, const wall::Learnt& learnt);

/// The same where the prints were told apart by the wall alone: each group counts as the print that it shows most.
Tally tally_of(const Wall& wall, const wall::Grouped& grouped);

}  // namespace farflung::wall_bench
