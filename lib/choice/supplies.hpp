// What a class has to bring: the quilt's prints by the part they play, not by their names.
#pragma once

#include <string>
#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::choice {

/// One line of the list. A print that plays two parts is on both lines.
struct Supply {
  /// lights, mediums, darks: prints dealt to the blocks, by their value beside each other; background and accent: slots
  /// of that name, or a background's slot (see slots_of); the rest are the frame's.
  enum class Part {
    lights,
    mediums,
    darks,
    background,
    accent,
    sashing,
    cornerstones,
    setting,
    border,
    binding,
    backing
  };

  Part part = Part::lights;
  std::vector<int> prints;  ///< of the quilt, each once; empty where the part has no print yet
  int pieces = 0;
  double cut_area = 0;       ///< square inches of all pieces, each as the box round it with its seam allowance
  double largest_share = 0;  ///< square inches of the print that needs most
  std::string says;          ///< "six lights, at most 240 sq in of each"
};

/// The whole list, as it is handed out before the class.
struct SupplyList {
  std::vector<Supply> lines;  ///< in the order of Part; parts that the quilt lacks are left out
  std::string says;           ///< "six lights, four darks, one accent"
};

/// Blocks (spares included) and frame as they are laid out; areas are nett: what cutting wastes comes on top, see the
/// cloth report. Binding is its width times the way round the top and 10 in; backing reaches beyond the top as it says.
SupplyList supplies_of(const quilt::Quilt& quilt);

/// "light", "medium", "dark", "background" ...
const char* part_name(Supply::Part part);

}  // namespace farflung::choice
