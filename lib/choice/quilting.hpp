// All-over quilting: one line of stitches across the whole top, and the thread it takes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/plane.hpp"
#include "base/result.hpp"

namespace farflung::choice {

/// How an all-over quilting is stitched.
struct QuiltingOptions {
  /// lines: straight rows from edge to edge; waves: rows that rise and fall together; loops: rows of loops, each row
  /// half a loop on from the last; pebbles: rows of circles that touch.
  enum class Style { lines, waves, loops, pebbles };

  Style style = Style::loops;
  Length spacing = Length::inches(2);  ///< between rows; of pebbles, across one
  double factor = 1.4;                 ///< thread for each length of path: take-up, starts and stops; 1 .. 5
};

/// "lines", "waves", "loops", "pebbles"; none for any other word.
std::optional<QuiltingOptions::Style> quilting_style_named(const std::string& word);
/// The word that quilting_style_named reads.
const char* quilting_style_name(QuiltingOptions::Style style);

/// The line as it is stitched, and the thread that it takes, in inches.
struct Quilting {
  std::vector<Point> path;  ///< one continuous line on the top, from its top left
  Length spacing;           ///< as stitched: adjusted so that rows (pebbles: those along a row) fit the top exactly
  double path_inches = 0;
  double top_inches = 0;     ///< thread on the spool: path x factor
  double bobbin_inches = 0;  ///< and as much again on the bobbin
  std::string says;
};

/// Quilts a top of that size. The path never leaves the top; every row follows from the one before without a break, in
/// turns at the edges (lines and waves travel along the edge there, where the binding covers it). Pebbles are stitched
/// once each, the line going out along one half of each and back along the other, and down an arc stitched twice to the
/// next row. Curves are drawn by chords, at most 0.3 % short of the true length.
///
///   Result<Quilting> loops = quilted(plan.width, plan.height, {.spacing = Length::inches(3)});
Result<Quilting> quilted(Length width, Length height, const QuiltingOptions& options);

}  // namespace farflung::choice
