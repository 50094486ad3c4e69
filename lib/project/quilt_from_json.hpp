// The quilt that a tree describes. For the sources of this module only.
#pragma once

#include "project/json.hpp"
#include "quilt/quilt.hpp"

namespace farflung::project {

/// A quilt and everything that is wrong with it. Where something is wrong the quilt is only as whole as could be made
/// out.
struct QuiltReading {
  quilt::Quilt quilt;
  Problems problems;  ///< each `at` a JSON pointer
};

/// Reads a tree whose shape may be wrong: `shape` is what the schema found, and what is of the wrong shape is passed
/// over. Adds what a schema cannot say: lengths that are none, ids that name nothing or are given twice, limits, and
/// what quilt::problems_of finds.
QuiltReading quilt_from_json(const Json& tree, Problems shape);

/// One pattern alone, as in data/patterns; slots name no prints. `units` are those of its numbers.
struct PatternReading {
  block::Pattern pattern;
  Problems problems;
};
/// `shape` as for quilt_from_json.
PatternReading pattern_from_json(const Json& tree, quilt::Units units, Problems shape);

/// A length in the file's units: a number, or a text such as "2 1/2". None where it is neither, or out of limits.
std::optional<Length> length_from_json(const Json& value, quilt::Units units);

/// "in", "cm" or "mm"; none otherwise.
std::optional<quilt::Units> units_named(const std::string& name);

}  // namespace farflung::project
