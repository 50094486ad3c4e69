#include "project/quilt_from_json.hpp"

#include <cmath>

#include "base/length_text.hpp"
#include "base/limits.hpp"
#include "project/quilt_parts.hpp"

namespace farflung::project {
namespace {

LengthUnit length_unit(quilt::Units units) {
  switch (units) {
    case quilt::Units::centimetres:
      return LengthUnit::centimetres;
    case quilt::Units::millimetres:
      return LengthUnit::millimetres;
    default:
      return LengthUnit::inches;
  }
}

/// What is sewn together stays; its blocks are sewn as they lie.
void sew(const quilt::SewnUnit& unit, quilt::Quilt& quilt) {
  for (const int cell : unit.cells) {
    if (cell >= static_cast<int>(quilt.layout.block.size())) continue;
    quilt.layout.kept[cell] = true;
    const int index = quilt.layout.block[cell];
    if (index < 0 || index >= static_cast<int>(quilt.blocks.size()) || quilt.blocks[index].sewn) continue;
    quilt.blocks[index].sewn = true;
    quilt.blocks[index].cut_turn = quilt.layout.turn[cell];
  }
}

/// All parts but those that need the setting's cells.
quilt::Quilt parts_from(Reading& reading, const Place& root) {
  quilt::Quilt quilt;
  quilt.title = (root / "title").text();
  quilt.units = units_named((root / "units").text()).value_or(quilt::Units::inches);
  reading.measure_in(quilt.units);
  quilt.seam_allowance = reading.length(root / "seam_allowance", quilt.seam_allowance);
  reading.take_ids(root);
  check_patterns(reading, root / "patterns");
  if (reading.given_up()) return quilt;
  for (const Place& place : (root / "prints").items()) quilt.prints.push_back(print_from(reading, place));
  for (const Place& place : (root / "patterns").items()) quilt.patterns.push_back(pattern_from(reading, place));
  for (const Place& place : (root / "blocks").items()) {
    quilt.blocks.push_back(block_from(reading, place, quilt.patterns));
  }
  if ((root / "binding").given()) quilt.binding = binding_from(reading, root / "binding");
  if ((root / "backing").given()) quilt.backing = backing_from(reading, root / "backing");
  quilt.goals = goals_from(root / "goals");
  quilt.gradation = gradation_from(reading, root / "gradation");
  return quilt;
}

}  // namespace

QuiltReading quilt_from_json(const Json& tree, Problems shape) {
  Reading reading(std::move(shape));
  const Place root(tree);
  quilt::Quilt quilt = parts_from(reading, root);
  if (reading.given_up()) return {std::move(quilt), reading.told()};

  quilt.setting = setting_from(reading, root / "setting");
  if (!reading.given_up()) quilt.layout = layout_from(reading, root / "layout", quilt.setting);
  for (const Place& place : (root / "layout" / "sewn").items()) {
    quilt.sewn_units.push_back(sewn_unit_from(reading, place, quilt));
  }
  for (const quilt::SewnUnit& unit : quilt.sewn_units) sew(unit, quilt);
  if ((root / "test_block").given()) quilt.test_block = test_block_from(reading, root / "test_block");
  print::give_codes(quilt.prints);
  if (reading.shape_is_right() && !reading.given_up()) reading.add_missing(quilt::problems_of(quilt));
  return {std::move(quilt), reading.told()};
}

PatternReading pattern_from_json(const Json& tree, quilt::Units units, Problems shape) {
  Reading reading(std::move(shape));
  const Place root(tree);
  reading.measure_in(units);
  reading.stand_alone();
  if (!within_limits(reading, root)) return {{}, reading.told()};
  PatternReading found{pattern_from(reading, root), {}};
  if (reading.count() == 0) reading.add_missing(block::problems_of(found.pattern, root.pointer()));
  found.problems = reading.told();
  return found;
}

std::optional<Length> length_from_json(const Json& value, quilt::Units units) {
  std::optional<Length> length;
  if (value.is_string()) {
    length = length_from_text(value.get<std::string>(), length_unit(units));
  } else if (value.is_number()) {
    const double number = value.get<double>();
    if (std::isfinite(number) && std::abs(number) < 1e6) length = quilt::from_units(number, units);
  }
  if (length && std::abs(length->inches()) > limits::kLengthInches) return std::nullopt;
  return length;
}

std::optional<quilt::Units> units_named(const std::string& name) {
  for (const quilt::Units units : {quilt::Units::inches, quilt::Units::centimetres, quilt::Units::millimetres}) {
    if (name == quilt::unit_name(units)) return units;
  }
  return std::nullopt;
}

}  // namespace farflung::project
