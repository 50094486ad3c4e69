#include "quilt/quilt.hpp"

#include <algorithm>

namespace farflung::quilt {
namespace {

template <typename Item>
int index_with_id(const std::vector<Item>& items, const std::string& id) {
  const auto found = std::find_if(items.begin(), items.end(), [&](const Item& item) { return item.id == id; });
  return found == items.end() ? kNone : static_cast<int>(found - items.begin());
}

}  // namespace

int Quilt::print_with_id(const std::string& id) const { return index_with_id(prints, id); }
int Quilt::pattern_with_id(const std::string& id) const { return index_with_id(patterns, id); }
int Quilt::block_with_id(const std::string& id) const { return index_with_id(blocks, id); }

setting::Plan plan_of(const Quilt& quilt) {
  int sized_by = 0;
  if (!quilt.setting.alternate.empty()) {
    sized_by = quilt.setting.alternate.front().front();
  } else if (!quilt.blocks.empty()) {
    sized_by = quilt.blocks.front().pattern;
  }
  if (quilt.patterns.empty()) return setting::plan_of(quilt.setting, Length(), Length());
  return setting::plan_of(quilt.setting, quilt.patterns[sized_by].width, quilt.patterns[sized_by].height);
}

int print_of_slot(const Quilt& quilt, const block::Block& block, int slot) {
  const int own = quilt.patterns[block.pattern].slots[slot].print;
  return own != kNone ? own : block.prints[slot];
}

std::vector<Turn> turns_of(const Quilt& quilt, const block::Block& block) {
  const block::Pattern& pattern = quilt.patterns[block.pattern];
  bool upright = false;
  bool half_turn_shows = false;
  for (int slot = 0; slot < static_cast<int>(pattern.slots.size()); ++slot) {
    const int print = print_of_slot(quilt, block, slot);
    if (print == kNone || !quilt.prints[print].upright) continue;
    upright = true;
    half_turn_shows |= quilt.prints[print].features.direction.kind != print::Direction::Kind::stripe;
  }
  if (!block.sewn || !upright) return pattern.turns;
  std::vector<Turn> turns;
  for (const Turn turn : pattern.turns) {
    const int from_cut = (turn + block.cut_turn.back()).quarters();
    if (from_cut == 0 || (from_cut == 2 && !half_turn_shows)) turns.push_back(turn);
  }
  return turns;
}

std::vector<int> spares(const Quilt& quilt) {
  std::vector<bool> placed(quilt.blocks.size(), false);
  for (int block : quilt.layout.block) {
    if (block != kNone) placed[block] = true;
  }
  std::vector<int> result;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    if (!placed[i]) result.push_back(static_cast<int>(i));
  }
  return result;
}

std::optional<Gradation::Way> way_named(const std::string& word) {
  using Way = Gradation::Way;
  for (Way way : {Way::across, Way::down, Way::diagonal, Way::outward, Way::picture}) {
    if (word == way_name(way)) return way;
  }
  return std::nullopt;
}

std::optional<SewnUnit::Stage> stage_named(const std::string& word) {
  for (const SewnUnit::Stage stage : {SewnUnit::Stage::pair, SewnUnit::Stage::row, SewnUnit::Stage::section}) {
    if (word == stage_name(stage)) return stage;
  }
  return std::nullopt;
}

const char* stage_name(SewnUnit::Stage stage) {
  switch (stage) {
    case SewnUnit::Stage::pair:
      return "pair";
    case SewnUnit::Stage::row:
      return "row";
    case SewnUnit::Stage::section:
      break;
  }
  return "section";
}

const char* way_name(Gradation::Way way) {
  switch (way) {
    case Gradation::Way::across:
      return "across";
    case Gradation::Way::down:
      return "down";
    case Gradation::Way::diagonal:
      return "diagonal";
    case Gradation::Way::outward:
      return "outward";
    case Gradation::Way::picture:
      break;
  }
  return "picture";
}

UsualWidths usual_widths(Units units) {
  const auto mm = [](double millimetres) { return Length::millimetres(millimetres); };
  if (units != Units::inches) return {mm(25), mm(100), mm(60), mm(100)};
  return {Length::inches(1), Length::inches(4), Binding().width, Backing().over};
}

double in_units(Length length, Units units) {
  switch (units) {
    case Units::inches:
      return length.inches();
    case Units::centimetres:
      return length.millimetres() / 10;
    case Units::millimetres:
      break;
  }
  return length.millimetres();
}

Length from_units(double value, Units units) {
  switch (units) {
    case Units::inches:
      return Length::inches(value);
    case Units::centimetres:
      return Length::millimetres(10 * value);
    case Units::millimetres:
      break;
  }
  return Length::millimetres(value);
}

const char* unit_name(Units units) {
  switch (units) {
    case Units::inches:
      return "in";
    case Units::centimetres:
      return "cm";
    case Units::millimetres:
      break;
  }
  return "mm";
}

}  // namespace farflung::quilt
