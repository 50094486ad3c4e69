// The papers that home printers take.
#pragma once

#include <string>

#include "base/result.hpp"
#include "draw/shapes.hpp"
#include "quilt/quilt.hpp"

namespace farflung::sheet {

/// Pages are laid out in points, 72 to the inch.
constexpr double kPointsPerInch = 72;
constexpr double kPointsPerMillimetre = kPointsPerInch / 25.4;

/// A sheet of paper, held upright.
struct Paper {
  std::string name;
  double width = 0, height = 0;  ///< points, upright
};

/// 8 1/2 x 11 in, and 210 x 297 mm.
Paper letter();
Paper a4();

/// "letter" or "a4", however written.
Result<Paper> paper_named(const std::string& name);

/// The same, and where nothing is said what lies in the printers of who measures so: Letter by inches, else A4.
Result<Paper> paper_named(const std::string& name, quilt::Units units);

/// What printers leave white anyway.
constexpr double kMargin = 0.5 * kPointsPerInch;
/// Points that each page's header and footer take within the margins.
constexpr double kHeader = 34;
constexpr double kFooter = 22;

/// Between the margins, below the header, above the footer.
draw::Box room_of(const Paper& paper);

}  // namespace farflung::sheet
