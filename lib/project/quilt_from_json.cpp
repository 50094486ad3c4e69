#include "project/quilt_from_json.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <numeric>
#include <set>
#include <utility>

#include "base/length_text.hpp"
#include "base/limits.hpp"
#include "project/tree_reader.hpp"

namespace farflung::project {
namespace {

using block::kNone;
using Ids = std::map<std::string, int>;

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

/// The value that a word stands for; the first where it is not among them.
template <typename Value>
Value worded(const Place& place, const std::vector<std::pair<const char*, Value>>& words) {
  for (const auto& [word, value] : words) {
    if (place.text() == word) return value;
  }
  return words.front().second;
}

class Reader {
 public:
  explicit Reader(Problems shape) : shape_is_right_(shape.empty()), problems_(std::move(shape)) {}

  QuiltReading read(const Place& root) {
    quilt::Quilt quilt;
    quilt.title = (root / "title").text();
    units_ = quilt.units = units_named((root / "units").text()).value_or(quilt::Units::inches);
    quilt.seam_allowance = length(root / "seam_allowance", quilt.seam_allowance);
    print_ids_ = ids(root / "prints", "print", limits::kPrints);
    pattern_ids_ = ids(root / "patterns", "pattern", limits::kPatterns);
    block_ids_ = ids(root / "blocks", "block", limits::kBlocks);
    check_patches(root / "patterns");
    if (beyond_limits_) return {std::move(quilt), told()};

    for (const Place& place : (root / "prints").items()) quilt.prints.push_back(print(place));
    for (const Place& place : (root / "patterns").items()) quilt.patterns.push_back(pattern(place));
    for (const Place& place : (root / "blocks").items()) quilt.blocks.push_back(block(place, quilt.patterns));
    if ((root / "binding").given()) quilt.binding = binding(root / "binding");
    if ((root / "backing").given()) quilt.backing = backing(root / "backing");
    quilt.goals = goals(root / "goals");
    quilt.gradation = gradation(root / "gradation");
    quilt.setting = setting(root / "setting");
    if (!beyond_limits_) quilt.layout = layout(root / "layout", quilt.setting);
    for (const Place& place : (root / "layout" / "sewn").items()) {
      quilt.sewn_units.push_back(sewn_unit(place, quilt));
    }
    for (const quilt::SewnUnit& unit : quilt.sewn_units) sew(unit, quilt);
    if ((root / "test_block").given()) quilt.test_block = test_block(root / "test_block");
    print::give_codes(quilt.prints);
    if (shape_is_right_ && !beyond_limits_) add_missing(quilt::problems_of(quilt));
    return {std::move(quilt), told()};
  }

  PatternReading read_pattern(const Place& root, quilt::Units units) {
    units_ = units;
    lone_pattern_ = true;
    if (!check_patches_of(root)) return {{}, told()};
    PatternReading reading{pattern(root), {}};
    if (problems_.empty()) problems_ = block::problems_of(reading.pattern, root.pointer());
    reading.problems = told();
    return reading;
  }

 private:
  void add(const Place& place, std::string cause, std::string remedy) {
    if (problems_.size() >= limits::kProblems) {
      ++untold_;
    } else {
      problems_.push_back(input_problem(place.pointer(), std::move(cause), std::move(remedy)));
    }
  }

  /// All that was found, ending with how much more there is.
  Problems told() {
    if (untold_ > 0) {
      problems_.push_back(input_problem("", "and " + std::to_string(untold_) + " more problems", "mend these first"));
    }
    return std::move(problems_);
  }

  void refuse(const Place& place, std::string cause, std::string remedy) {
    add(place, std::move(cause), std::move(remedy));
    beyond_limits_ = true;
  }

  /// Adds what was found later, but one finding for one place is enough.
  void add_missing(const Problems& found) {
    std::set<std::string> places;
    for (const Problem& problem : problems_) places.insert(problem.at);
    for (const Problem& problem : found) {
      if (places.count(problem.at) > 0) continue;
      if (problems_.size() >= limits::kProblems) {
        ++untold_;
      } else {
        problems_.push_back(problem);
      }
    }
  }

  Ids ids(const Place& list, const std::string& kind, std::size_t most) {
    Ids ids;
    if (list.size() > most) {
      refuse(list, "has " + std::to_string(list.size()) + " entries, the most is " + std::to_string(most),
             "make it a smaller quilt");
      return ids;
    }
    int index = 0;
    for (const Place& item : list.items()) {
      const Place id = item / "id";
      if (!ids.emplace(id.text(), index++).second && id.value().is_string()) {
        add(id, "there is a " + kind + " " + id.text() + " already", "give each its own id");
      }
    }
    return ids;
  }

  void check_patches(const Place& patterns) {
    std::size_t all = 0;
    for (const Place& pattern : patterns.items()) {
      if (!check_patches_of(pattern)) return;
      all += (pattern / "patches").size();
    }
    if (all > limits::kAllPatches) {
      refuse(patterns, "have " + std::to_string(all) + " patches, the most is " + std::to_string(limits::kAllPatches),
             "use fewer or simpler patterns");
    }
  }

  bool check_patches_of(const Place& pattern) {
    const auto check = [&](const Place& list, std::size_t most) {
      if (list.size() <= most) return true;
      refuse(list, "has " + std::to_string(list.size()) + " entries, the most is " + std::to_string(most),
             "use a simpler pattern");
      return false;
    };
    if (!check(pattern / "patches", limits::kPatches) || !check(pattern / "slots", limits::kSlots)) return false;
    if (!check(pattern / "piecing", 2 * limits::kPatches)) return false;
    for (const Place& patch : (pattern / "patches").items()) {
      if (!check(patch / "polygon", limits::kCorners)) return false;
    }
    for (const Place& step : (pattern / "piecing").items()) {
      if (!check(step / "join", limits::kPatches)) return false;
    }
    return true;
  }

  Length length(const Place& place, Length otherwise = Length()) {
    if (!place.value().is_number() && !place.value().is_string()) return otherwise;
    if (const std::optional<Length> read = length_from_json(place.value(), units_)) return *read;
    add(place, place.value().is_string() ? "\"" + place.text() + "\" is not a length" : "a length out of reach",
        "write a number in the file's units, or a text such as \"2 1/2\", \"3/8\" or \"8.9 cm\"");
    return otherwise;
  }

  /// A length that must not be zero or less.
  Length width(const Place& place, Length otherwise = Length()) {
    const std::size_t before = problems_.size();
    const Length read = length(place, otherwise);
    if (place.given() && read <= Length() && problems_.size() == before && shape_is_right_) {
      add(place, "must be more than 0", "write how wide or long it is");
    }
    return read;
  }

  /// A file's name; a quilt from a stranger must not lead to what lies elsewhere on the disk.
  std::string file_within(const Place& place) {
    const std::string name = place.text();
    const std::filesystem::path path(name);
    const bool outside = path.is_absolute() || std::find(path.begin(), path.end(), "..") != path.end() ||
                         name.find('\0') != std::string::npos;
    if (outside)
      add(place, "names a file outside the quilt's folder", "bring the file into the folder and name it from there");
    return outside ? "" : name;
  }

  int named(const Place& place, const Ids& ids, const std::string& kind) {
    if (!place.value().is_string()) return kNone;
    const auto found = ids.find(place.text());
    if (found != ids.end()) return found->second;
    add(place, "there is no " + kind + " " + (place.text().empty() ? "without a name" : place.text()),
        "name one of the quilt's " + kind + "s");
    return kNone;
  }

  int print_named(const Place& place) {
    if (!lone_pattern_) return named(place, print_ids_, "print");
    if (place.given()) add(place, "a pattern that stands alone has no prints", "name the print in the quilt");
    return kNone;
  }

  colour::Lab lab(const Place& place) {
    const std::vector<Place> parts = place.items();
    if (parts.size() != 3) return {};
    return {parts[0].number(0), parts[1].number(0), parts[2].number(0)};
  }

  print::Print print(const Place& place) {
    print::Print print;
    print.id = (place / "id").text();
    print.code = (place / "code").text();
    print.name = (place / "name").text();
    print.swatch = file_within(place / "swatch");
    if ((place / "swatch_width").given()) print.swatch_width = width(place / "swatch_width");
    print.upright = (place / "upright").flag(false);
    for (const Place& cut : (place / "cloth").items()) print.cloth.push_back(cloth(cut));
    if ((place / "photo").given()) print.photo = sighting(place / "photo");
    print.features = features(place / "features");
    return print;
  }

  print::Cloth cloth(const Place& place) {
    print::Cloth cloth;
    cloth.kind = (place / "kind").text();
    cloth.width = width(place / "width");
    cloth.length = width(place / "length");
    cloth.count = (place / "count").whole(1);
    cloth.lot = (place / "lot").text();
    if ((place / "price").given()) cloth.price = (place / "price").number(0);
    return cloth;
  }

  print::Sighting sighting(const Place& place) {
    print::Sighting sighting;
    sighting.file = file_within(place / "file");
    sighting.reference = (place / "reference").text("none");
    const std::vector<Place> corners = (place / "corners").items();
    for (std::size_t i = 0; i < corners.size() && i < sighting.corners.size(); ++i) {
      const std::vector<Place> xy = corners[i].items();
      if (xy.size() == 2) sighting.corners[i] = {xy[0].number(0), xy[1].number(0)};
    }
    return sighting;
  }

  print::Features features(const Place& place) {
    using Kind = print::Direction::Kind;
    print::Features features;
    features.lab = lab(place / "lab");
    for (const Place& told : (place / "by_hand").items()) features.by_hand.push_back(told.text());
    for (const Place& colour : (place / "palette").items()) {
      features.palette.push_back({lab(colour / "lab"), (colour / "share").number(0)});
    }
    features.value_range = (place / "value_range").number(0);
    if ((place / "scale").given()) features.scale = (place / "scale").number(0);
    if ((place / "scale_share").given()) features.scale_share = (place / "scale_share").number(0);
    features.busyness = (place / "busyness").number(0);
    const Place direction = place / "direction";
    features.direction.kind =
        worded<Kind>(direction / "kind", {{"none", Kind::none}, {"stripe", Kind::stripe}, {"one-way", Kind::one_way}});
    features.direction.degrees = (direction / "degrees").number(0);
    return features;
  }

  block::Pattern pattern(const Place& place) {
    block::Pattern pattern;
    pattern.id = (place / "id").text();
    pattern.name = (place / "name").text();
    pattern.width = width(place / "width");
    pattern.height = width(place / "height");
    if ((place / "turns").value().is_array()) pattern.turns.clear();
    for (const Place& turn : (place / "turns").items()) pattern.turns.push_back(Turn::quarters(turn.whole(0)));
    for (const auto& [name, slot] : (place / "slots").entries()) {
      pattern.slots.push_back({name, print_named(slot / "print"), (slot / "may_touch").flag(false)});
    }
    for (const Place& item : (place / "patches").items()) pattern.patches.push_back(patch(item, pattern));
    for (const Place& item : (place / "piecing").items()) pattern.piecing.push_back(step(item));
    return pattern;
  }

  block::Patch patch(const Place& place, const block::Pattern& pattern) {
    block::Patch patch;
    const Place slot = place / "slot";
    patch.slot = pattern.slot_named(slot.text());
    if (patch.slot == kNone) {
      if (slot.value().is_string()) {
        add(slot, "the pattern has no slot " + slot.text(), "name one of its slots, or add this one");
      }
      patch.slot = 0;
    }
    for (const Place& corner : (place / "polygon").items()) {
      const std::vector<Place> xy = corner.items();
      if (xy.size() == 2) patch.polygon.push_back({length(xy[0]), length(xy[1])});
    }
    return patch;
  }

  std::optional<block::Unit> unit(const Place& place) {
    if (place.value().is_number_integer()) return block::Unit{block::Unit::Kind::patch, place.whole(0)};
    const std::string text = place.text();
    const std::optional<std::size_t> step = text.empty() || text[0] != '#' ? std::nullopt : index_token(text.substr(1));
    if (!step) return std::nullopt;
    return block::Unit{block::Unit::Kind::step, static_cast<int>(*step)};
  }

  block::PiecingStep step(const Place& place) {
    block::PiecingStep step;
    for (const Place& item : (place / "join").items()) {
      if (const auto side = unit(item)) {
        step.join.push_back(*side);
      } else if (item.value().is_string()) {
        add(item, "\"" + item.text() + "\" is neither a patch nor a step",
            "write a patch's index, or \"#0\" for what step 0 made");
      }
    }
    step.press = pressing(place / "press");
    return step;
  }

  block::Pressing pressing(const Place& place) {
    using Kind = block::Pressing::Kind;
    if (place.text() == "spun") return {Kind::spun, {}};
    if (const auto side = unit(place)) return {Kind::toward, *side};
    if (place.value().is_string() && place.text() != "open") {
      add(place, "\"" + place.text() + "\" is no way to press",
          "write a patch's index, \"#0\" for what step 0 made, \"open\" or \"spun\"");
    }
    return {Kind::open, {}};
  }

  block::Block block(const Place& place, const std::vector<block::Pattern>& patterns) {
    using Press = block::Block::Press;
    block::Block block;
    block.id = (place / "id").text();
    block.pattern = named(place / "pattern", pattern_ids_, "pattern");
    if (block.pattern != kNone) fill_slots(place / "prints", patterns[block.pattern], block);
    if ((place / "press").given()) {
      block.press = worded<Press>(place / "press", {{"drawn", Press::drawn}, {"other", Press::other}});
    }
    block.sewn = (place / "sewn").flag(false);
    block.cut_turn = Turn::quarters((place / "cut_turn").whole(0));
    return block;
  }

  void fill_slots(const Place& place, const block::Pattern& pattern, block::Block& block) {
    block.prints.assign(pattern.slots.size(), kNone);
    for (const auto& [name, item] : place.entries()) {
      const int slot = pattern.slot_named(name);
      const int print = named(item, print_ids_, "print");
      if (slot == kNone) {
        add(item, "pattern " + pattern.id + " has no slot " + name, "name one of its slots");
      } else {
        block.prints[slot] = print;
      }
    }
  }

  setting::Setting setting(const Place& place) {
    using Kind = setting::Setting::Kind;
    setting::Setting setting;
    setting.kind = worded<Kind>(place / "kind",
                                {{"straight", Kind::straight}, {"brick", Kind::brick}, {"on point", Kind::on_point}});
    setting.rows = (place / "rows").whole(0);
    setting.columns = (place / "columns").whole(0);
    check_cells(place, setting);
    for (const Place& row : (place / "alternate").items()) {
      setting.alternate.emplace_back();
      for (const Place& item : row.items()) setting.alternate.back().push_back(named(item, pattern_ids_, "pattern"));
    }
    if ((place / "sashing").given()) setting.sashing = sashing(place / "sashing");
    setting.filler = print_named(place / "filler");
    if ((place / "borders").size() > limits::kBorders) {
      refuse(place / "borders", "more than " + std::to_string(limits::kBorders) + " borders", "use fewer");
      return setting;
    }
    for (const Place& item : (place / "borders").items()) setting.borders.push_back(border(item));
    return setting;
  }

  void check_cells(const Place& place, const setting::Setting& setting) {
    const std::int64_t lists = setting.kind == setting::Setting::Kind::on_point ? 2LL * setting.rows : setting.rows;
    if (lists <= 0 || setting.columns <= 0) {
      beyond_limits_ = beyond_limits_ || place.given();
      if (shape_is_right_ && place.given()) add(place, "has no cells", "give it a row and a column at least");
    } else if (lists * setting.columns > limits::kCells) {
      refuse(place,
             std::to_string(setting.rows) + " rows of " + std::to_string(setting.columns) + " are more than " +
                 std::to_string(limits::kCells) + " cells",
             "make it a smaller quilt");
    }
  }

  setting::Sashing sashing(const Place& place) {
    return {width(place / "width"), print_named(place / "print"), print_named(place / "cornerstone"),
            (place / "outer").flag(false)};
  }

  setting::Border border(const Place& place) {
    using Corners = setting::Border::Corners;
    setting::Border border;
    border.width = width(place / "width");
    border.print = print_named(place / "print");
    border.corners = worded<Corners>(
        place / "corners",
        {{"butted", Corners::butted}, {"cornerstone", Corners::cornerstone}, {"mitred", Corners::mitred}});
    border.cornerstone = print_named(place / "cornerstone");
    return border;
  }

  quilt::Binding binding(const Place& place) {
    quilt::Binding binding;
    binding.print = print_named(place / "print");
    binding.width = width(place / "width", binding.width);
    binding.bias = (place / "bias").flag(false);
    return binding;
  }

  quilt::Backing backing(const Place& place) {
    quilt::Backing backing;
    backing.print = print_named(place / "print");
    backing.over = length(place / "over", backing.over);
    if (backing.over < Length())
      add(place / "over", "must not be less than 0", "write how far the backing reaches out");
    return backing;
  }

  quilt::TestBlock test_block(const Place& place) {
    quilt::TestBlock measured;
    measured.pattern = named(place / "pattern", pattern_ids_, "pattern");
    measured.width = length(place / "width", Length());
    measured.height = length(place / "height", Length());
    return measured;
  }

  /// `quilt` has nothing sewn yet: what it keeps is kept by hand.
  quilt::SewnUnit sewn_unit(const Place& place, const quilt::Quilt& quilt) {
    const setting::Setting& setting = quilt.setting;
    quilt::SewnUnit unit;
    unit.stage = quilt::stage_named((place / "stage").text()).value_or(unit.stage);
    const std::vector<int> rows =
        setting.rows < 1 || setting.columns < 1 ? std::vector<int>() : setting::cells_in_rows(setting);
    for (const Place& item : (place / "cells").items()) {
      const int cell = cell_at(item, rows);
      if (cell == quilt::kNone) continue;
      unit.cells.push_back(cell);
      if (cell < static_cast<int>(quilt.layout.kept.size()) && quilt.layout.kept[cell]) {
        unit.kept_by_hand.push_back(cell);
      }
    }
    return unit;
  }

  /// What is sewn together stays; its blocks are sewn as they lie.
  static void sew(const quilt::SewnUnit& unit, quilt::Quilt& quilt) {
    for (const int cell : unit.cells) {
      if (cell >= static_cast<int>(quilt.layout.block.size())) continue;
      quilt.layout.kept[cell] = true;
      const int index = quilt.layout.block[cell];
      if (index < 0 || index >= static_cast<int>(quilt.blocks.size()) || quilt.blocks[index].sewn) continue;
      quilt.blocks[index].sewn = true;
      quilt.blocks[index].cut_turn = quilt.layout.turn[cell];
    }
  }

  quilt::Gradation gradation(const Place& place) {
    quilt::Gradation gradation;
    gradation.way = quilt::way_named((place / "way").text()).value_or(gradation.way);
    gradation.dark_first = (place / "dark_first").flag(false);
    gradation.file = file_within(place / "picture");
    if (gradation.way == quilt::Gradation::Way::picture && gradation.file.empty()) {
      add(place / "picture", "a gradation after a picture has none",
          "name the picture's file, within the quilt's folder");
    }
    return gradation;
  }

  quilt::Goals goals(const Place& place) {
    quilt::Goals goals;
    goals.spread = (place / "spread").number(goals.spread);
    goals.coverage = (place / "coverage").number(goals.coverage);
    goals.evenness = (place / "evenness").number(goals.evenness);
    goals.streak = (place / "streak").number(goals.streak);
    goals.likeness = (place / "likeness").number(goals.likeness);
    goals.likeness_by_print = (place / "likeness_by").text() == "print";
    goals.corner = (place / "corner").number(goals.corner);
    goals.gradation = (place / "gradation").number(goals.gradation);
    goals.contrast = (place / "contrast").number(goals.contrast);
    goals.lines = (place / "lines").number(goals.lines);
    goals.closest = (place / "closest").number(goals.closest);
    goals.nest = (place / "nest").number(goals.nest);
    goals.nest_rule = (place / "nest").text() == "rule";
    return goals;
  }

  setting::Arrangement layout(const Place& place, const setting::Setting& setting) {
    if (setting.rows < 1 || setting.columns < 1) return {};
    setting::Arrangement layout = setting::empty_arrangement(setting);
    const std::vector<int> rows = setting::cells_in_rows(setting);
    read_lists(place / "cells", rows,
               [&](std::size_t cell, const Place& item) { layout.block[cell] = named(item, block_ids_, "block"); });
    read_lists(place / "turns", rows,
               [&](std::size_t cell, const Place& item) { layout.turn[cell] = Turn::quarters(item.whole(0)); });
    for (const Place& item : (place / "kept").items()) {
      const int cell = cell_at(item, rows);
      if (cell != quilt::kNone) layout.kept[cell] = true;
    }
    return layout;
  }

  /// Gives every entry of lists that are one for each row of cells to `take`; says where a list does not fit.
  template <typename Take>
  void read_lists(const Place& lists, const std::vector<int>& rows, Take take) {
    if (!lists.given()) return;
    if (lists.size() != rows.size()) {
      add(lists,
          "has " + std::to_string(lists.size()) + " lists, the setting has " + std::to_string(rows.size()) + " rows",
          "give one list a row; null is an empty cell");
    }
    std::size_t first = 0;
    const std::vector<Place> items = lists.items();
    for (std::size_t r = 0; r < items.size() && r < rows.size(); ++r) {
      const std::vector<Place> row = items[r].items();
      if (items[r].value().is_array() && row.size() != static_cast<std::size_t>(rows[r])) {
        add(items[r],
            "has " + std::to_string(row.size()) + " entries, the row has " + std::to_string(rows[r]) + " cells",
            "give one entry a cell; null is an empty cell");
      }
      for (std::size_t c = 0; c < row.size() && c < static_cast<std::size_t>(rows[r]); ++c) take(first + c, row[c]);
      first += static_cast<std::size_t>(rows[r]);
    }
  }

  /// The cell at [row, column]; kNone, and a problem told, where there is none.
  int cell_at(const Place& place, const std::vector<int>& rows) {
    const std::vector<Place> pair = place.items();
    if (pair.size() != 2) return quilt::kNone;
    const int row = pair[0].whole(-1);
    const int column = pair[1].whole(-1);
    if (row < 0 || column < 0 || row >= static_cast<int>(rows.size()) || column >= rows[row]) {
      if (shape_is_right_) add(place, "there is no such cell", "write row and column, counted from 0");
      return quilt::kNone;
    }
    return std::accumulate(rows.begin(), rows.begin() + row, 0) + column;
  }

  bool shape_is_right_;
  bool beyond_limits_ = false;
  bool lone_pattern_ = false;
  quilt::Units units_ = quilt::Units::inches;
  Ids print_ids_, pattern_ids_, block_ids_;
  Problems problems_;
  std::size_t untold_ = 0;
};

}  // namespace

QuiltReading quilt_from_json(const Json& tree, Problems shape) { return Reader(std::move(shape)).read(Place(tree)); }

PatternReading pattern_from_json(const Json& tree, quilt::Units units, Problems shape) {
  return Reader(std::move(shape)).read_pattern(Place(tree), units);
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
