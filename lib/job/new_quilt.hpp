// An empty quilt from a pattern and a size.
#pragma once

#include <string>
#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// Texts as people type them; one that cannot be read is a problem, and no folder is made.
struct NewQuilt {
  std::string folder;  ///< made; must not hold a quilt yet
  /// Each the id of a pattern that comes with the program, or a pattern's file; several take turns over the cells.
  std::vector<std::string> patterns = {"square"};
  std::string size = "lap";  ///< a name from the table of sizes, or width x height in the quilt's units: "60x72"
  std::string block;         ///< finished width of a block; empty: as the pattern is drawn
  std::string title;         ///< empty: the folder's name
  std::string units = "in";  ///< "in", "cm" or "mm"
  std::string setting = "straight";  ///< "straight", "brick" or "on point"
  /// No folder is made.
  bool dry_run = false;
};

/// The rows and columns that come nearest to the size; the words say how near.
Outcome new_quilt(const NewQuilt& options);

}  // namespace farflung::job
