// Common sizes of quilts, and sizes as they are typed.
#pragma once

#include <string>
#include <vector>

#include "base/length.hpp"
#include "base/result.hpp"
#include "quilt/quilt.hpp"

namespace farflung::project {

/// A size that quilts are made in, or one that was typed.
struct Size {
  std::string name;         ///< "lap"; empty for a size that was typed
  Length width, height;     ///< finished
  std::string note;         ///< what it is for, and that beds differ
  std::string metric_note;  ///< the same for who measures in centimetres
  std::string caution;      ///< what could hurt someone; empty where nothing is known to
};

/// The table in data/sizes.json, smallest first.
Result<std::vector<Size>> common_sizes();

/// The size's note, what it measures said in the quilt's way.
const std::string& note_of(const Size& size, quilt::Units units);

/// "lap", or width x height: "60x72", "60 x 72 in", "150 x 200 cm", "60 by 72". A unit after the second length counts
/// for the first too; without one they are in `units`.
Result<Size> size_named(const std::string& text, quilt::Units units = quilt::Units::inches);

}  // namespace farflung::project
