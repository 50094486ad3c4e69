// The papers that home printers take.
#pragma once

#include <string>

#include "base/result.hpp"
#include "draw/shapes.hpp"

namespace farflung::sheet {

/// Pages are laid out in points, 72 to the inch.
constexpr double kPointsPerInch = 72;
constexpr double kPointsPerMillimetre = kPointsPerInch / 25.4;

struct Paper {
  std::string name;
  double width = 0, height = 0;  ///< points, upright
};

Paper letter();
Paper a4();

/// "letter" or "a4", however written.
Result<Paper> paper_named(const std::string& name);

/// What printers leave white anyway.
constexpr double kMargin = 0.5 * kPointsPerInch;
constexpr double kHeader = 34;
constexpr double kFooter = 22;

/// Between the margins, below the header, above the footer.
draw::Box room_of(const Paper& paper);

}  // namespace farflung::sheet
