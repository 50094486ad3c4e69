// The facts behind a score, for people and for programs. For the sources of this module only.
#pragma once

#include <string>

#include "arrange/advice.hpp"
#include "job/open_quilt.hpp"
#include "score/explain.hpp"
#include "score/nesting.hpp"
#include "score/touch_bound.hpp"

namespace farflung::job {

/// Spacings, the strongest cast, equal steps, lines that stand out and accents in line: a few lines, each ended.
std::string words_of(const score::Explanation& explanation, const score::Measure& measure);
/// The same facts by name; lists are empty and "cast" is null where there is nothing to tell.
Report json_of(const score::Explanation& explanation, const score::Measure& measure);

/// How few touches any layout could have, what forces them, and whether a layout with `touches` has no more; empty
/// where none are proved to be forced.
std::string words_of(const score::TouchBound& bound, const quilt::Quilt& quilt, int touches);
/// The same facts by name.
Report json_of(const score::TouchBound& bound, const quilt::Quilt& quilt, int touches);

/// How seam ends meet across joins and what pressing makes of it, or that nothing has to nest.
std::string words_of(const score::Nesting& nesting, const quilt::Quilt& quilt, const setting::Plan& plan);
/// The same facts by name.
Report json_of(const score::Nesting& nesting, const quilt::Quilt& quilt, const setting::Plan& plan);

/// What could still be mended: accents and the swaps that take them out of line, kept cells and what they cost.
std::string words_of(const std::vector<arrange::AccentAdvice>& advice, const quilt::Quilt& quilt,
                     const setting::Plan& plan);
std::string words_of(const std::vector<arrange::KeptCost>& costs, const setting::Plan& plan);
Report json_of(const std::vector<arrange::AccentAdvice>& advice, const quilt::Quilt& quilt, const setting::Plan& plan);
Report json_of(const std::vector<arrange::KeptCost>& costs, const setting::Plan& plan);

/// The strongest part of a region's cast, in a word: "darker".
const char* cast_lean(const score::Reading& cast);

/// "R3 C5 and R4 C1".
std::string cells_text(const setting::Plan& plan, const std::vector<int>& cells);

/// A number to two places.
std::string short_number(double value);

}  // namespace farflung::job
