// An empty quilt from a pattern and a size.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "quilt/quilt.hpp"

namespace farflung::project {

/// All sizes are finished ones; that of the top is reached as nearly as whole blocks go.
struct NewQuilt {
  std::string title;
  quilt::Units units = quilt::Units::inches;
  std::vector<block::Pattern> patterns;  ///< one, or several of one size that alternate over rows and columns
  Length width, height;                  ///< of the finished top that is wished for, borders included
  std::optional<Length> block;           ///< finished width of a block; the pattern's own where there is none
  setting::Setting::Kind kind = setting::Setting::Kind::straight;
  std::optional<Length> sashing;  ///< finished width
  std::vector<Length> borders;    ///< finished widths from the inside out
  int spares = 0;                 ///< blocks beyond the cells
};

/// The quilt whose finished top comes nearest to the size wished for, each way by itself, one row and column at least;
/// its plan says how near. Its blocks, B001 and on, lie in reading order, patterns alternating as laid; no print is
/// dealt yet and there are none. Refused where sizes make no sense or the quilt would be beyond the limits.
Result<quilt::Quilt> new_quilt(const NewQuilt& wish);

}  // namespace farflung::project
