#include "score/places.hpp"

#include <algorithm>
#include <map>

namespace farflung::score {
namespace {

/// A cell on the lattice of its setting: straight (column, row); brick and on point in half steps across.
struct Lattice {
  int across = 0, down = 0;
};

Lattice lattice_of(const setting::Cell& cell, setting::Setting::Kind kind) {
  if (kind == setting::Setting::Kind::straight) return {cell.column, cell.row};
  return {2 * cell.column + cell.row % 2, cell.row};
}

/// Groups the places by a key and keeps the groups of three or more, in the order of their keys.
template <typename Key>
void add_lines(const std::vector<Lattice>& lattice, Key key, Line::Way way, std::vector<Line>& lines) {
  std::map<int, std::vector<int>> groups;
  for (int i = 0; i < static_cast<int>(lattice.size()); ++i) groups[key(lattice[i])].push_back(i);
  for (auto& [at, group] : groups) {
    if (group.size() >= 3) lines.push_back({way, std::move(group)});
  }
}

}  // namespace

Places places_of(const setting::Setting& setting, const setting::Plan& plan, const std::vector<bool>& occupied) {
  Places places;
  places.of_cell.assign(plan.cells.size(), kNone);
  std::vector<Lattice> lattice;
  for (int c = 0; c < static_cast<int>(plan.cells.size()); ++c) {
    if (!occupied[c]) continue;
    const setting::Cell& cell = plan.cells[c];
    places.of_cell[c] = places.count();
    places.cell.push_back(c);
    places.x.push_back(cell.centre.x.inches() / plan.pitch);
    places.y.push_back(cell.centre.y.inches() / plan.pitch);
    places.row.push_back(cell.row);
    places.column.push_back(cell.column);
    places.klass.push_back(setting.alternate.empty() || cell.pattern == kNone ? 0 : cell.pattern);
    lattice.push_back(lattice_of(cell, setting.kind));
    places.across.push_back(lattice.back().across);
    places.down.push_back(lattice.back().down);
  }
  add_lines(
      lattice, [](Lattice at) { return at.down; }, Line::Way::row, places.lines);
  add_lines(
      lattice, [](Lattice at) { return at.across; }, Line::Way::column, places.lines);
  if (setting.kind != setting::Setting::Kind::brick) {
    add_lines(
        lattice, [](Lattice at) { return at.across - at.down; }, Line::Way::falling, places.lines);
    add_lines(
        lattice, [](Lattice at) { return at.across + at.down; }, Line::Way::rising, places.lines);
  }
  places.rows = setting.rows;
  places.columns = setting.columns;
  places.full_grid =
      setting.kind == setting::Setting::Kind::straight && places.count() == setting.rows * setting.columns;
  return places;
}

}  // namespace farflung::score
