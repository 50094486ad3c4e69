// The facts behind a score, for people and for programs. For the sources of this module only.
#pragma once

#include <string>

#include "job/open_quilt.hpp"
#include "score/explain.hpp"
#include "score/nesting.hpp"
#include "score/touch_bound.hpp"

namespace farflung::job {

/// Spacings, the strongest cast, equal steps, lines that stand out and accents in line: a few lines, each ended.
std::string words_of(const score::Explanation& explanation, const score::Measure& measure);
Report json_of(const score::Explanation& explanation, const score::Measure& measure);

/// How few touches any layout could have and what forces them; empty where none are proved to be forced.
std::string words_of(const score::TouchBound& bound, const quilt::Quilt& quilt);
Report json_of(const score::TouchBound& bound, const quilt::Quilt& quilt);

/// How seam ends meet across joins and what pressing makes of it; empty for patterns without piecing steps.
std::string words_of(const score::Nesting& nesting, const quilt::Quilt& quilt, const setting::Plan& plan);
Report json_of(const score::Nesting& nesting, const quilt::Quilt& quilt, const setting::Plan& plan);

/// The bound for a quilt as it lies, its blocks turned as they may be.
score::TouchBound touch_bound_of(const score::Measure& measure, const setting::Arrangement& layout);

/// "R3 C5 and R4 C1".
std::string cells_text(const setting::Plan& plan, const std::vector<int>& cells);

/// A number to two places.
std::string short_number(double value);

}  // namespace farflung::job
