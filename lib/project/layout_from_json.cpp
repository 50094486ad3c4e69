#include <algorithm>

#include "project/quilt_parts.hpp"

namespace farflung::project {
namespace {

void fill_slots(Reading& reading, const Place& place, const block::Pattern& pattern, block::Block& block) {
  block.prints.assign(pattern.slots.size(), kNone);
  for (const auto& [name, item] : place.entries()) {
    const int slot = pattern.slot_named(name);
    const int print = reading.print_named(item);
    if (slot == kNone) {
      reading.add(item, "pattern " + pattern.id + " has no slot " + name, "name one of its slots");
    } else {
      block.prints[slot] = print;
    }
  }
}

/// Gives every entry of lists that are one for each row of cells to `take`; says where a list does not fit.
template <typename Take>
void read_lists(Reading& reading, const Place& lists, const std::vector<int>& rows, Take take) {
  if (!lists.given()) return;
  if (lists.size() != rows.size()) {
    reading.add(
        lists,
        "has " + std::to_string(lists.size()) + " lists, the setting has " + std::to_string(rows.size()) + " rows",
        "give one list a row; null is an empty cell");
  }
  std::size_t first = 0;
  const std::vector<Place> items = lists.items();
  for (std::size_t r = 0; r < items.size() && r < rows.size(); ++r) {
    const std::vector<Place> row = items[r].items();
    if (items[r].value().is_array() && row.size() != static_cast<std::size_t>(rows[r])) {
      reading.add(items[r],
                  "has " + std::to_string(row.size()) + " entries, the row has " + std::to_string(rows[r]) + " cells",
                  "give one entry a cell; null is an empty cell");
    }
    for (std::size_t c = 0; c < row.size() && c < static_cast<std::size_t>(rows[r]); ++c) take(first + c, row[c]);
    first += static_cast<std::size_t>(rows[r]);
  }
}

}  // namespace

block::Block block_from(Reading& reading, const Place& place, const std::vector<block::Pattern>& patterns) {
  using Press = block::Block::Press;
  block::Block block;
  block.id = (place / "id").text();
  block.pattern = reading.pattern_named(place / "pattern");
  if (block.pattern != kNone) fill_slots(reading, place / "prints", patterns[block.pattern], block);
  if ((place / "press").given()) {
    block.press = worded<Press>(place / "press", {{"drawn", Press::drawn}, {"other", Press::other}});
  }
  block.sewn = (place / "sewn").flag(false);
  block.cut_turn = Turn::quarters((place / "cut_turn").whole(0));
  return block;
}

setting::Arrangement layout_from(Reading& reading, const Place& place, const setting::Setting& setting) {
  if (setting.rows < 1 || setting.columns < 1) return {};
  setting::Arrangement layout = setting::empty_arrangement(setting);
  const std::vector<int> rows = setting::cells_in_rows(setting);
  read_lists(reading, place / "cells", rows,
             [&](std::size_t cell, const Place& item) { layout.block[cell] = reading.block_named(item); });
  read_lists(reading, place / "turns", rows,
             [&](std::size_t cell, const Place& item) { layout.turn[cell] = Turn::quarters(item.whole(0)); });
  for (const Place& item : (place / "kept").items()) {
    const int cell = reading.cell_at(item, rows);
    if (cell != quilt::kNone) layout.kept[cell] = true;
  }
  return layout;
}

quilt::SewnUnit sewn_unit_from(Reading& reading, const Place& place, const quilt::Quilt& quilt) {
  const setting::Setting& setting = quilt.setting;
  quilt::SewnUnit unit;
  unit.stage = quilt::stage_named((place / "stage").text()).value_or(unit.stage);
  const std::vector<int> rows =
      setting.rows < 1 || setting.columns < 1 ? std::vector<int>() : setting::cells_in_rows(setting);
  for (const Place& item : (place / "cells").items()) {
    const int cell = reading.cell_at(item, rows);
    if (cell == quilt::kNone) continue;
    unit.cells.push_back(cell);
    if (cell < static_cast<int>(quilt.layout.kept.size()) && quilt.layout.kept[cell]) {
      unit.kept_by_hand.push_back(cell);
    }
  }
  return unit;
}

quilt::TestBlock test_block_from(Reading& reading, const Place& place) {
  quilt::TestBlock measured;
  measured.pattern = reading.pattern_named(place / "pattern");
  measured.width = reading.length(place / "width", Length());
  measured.height = reading.length(place / "height", Length());
  return measured;
}

}  // namespace farflung::project
