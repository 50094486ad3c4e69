#include "setting/plan.hpp"

#include <cmath>

#include "setting/frame.hpp"

namespace farflung::setting {
namespace {

Polygon turned_eighth(const Polygon& polygon, Point about) {
  const double half_root = std::sqrt(0.5);
  Polygon result;
  for (const Point& point : polygon) {
    const double x = (point.x - about.x).inches();
    const double y = (point.y - about.y).inches();
    result.push_back({about.x + Length::inches((x - y) * half_root), about.y + Length::inches((x + y) * half_root)});
  }
  return result;
}

int pattern_of_cell(const Setting& setting, int row, int column) {
  if (setting.alternate.empty()) return kNone;
  const auto& tiled = setting.alternate[row % setting.alternate.size()];
  return tiled[column % tiled.size()];
}

}  // namespace

std::string cell_name(const Cell& cell) {
  return "R" + std::to_string(cell.row + 1) + " C" + std::to_string(cell.column + 1);
}

Polygon Plan::top_from_block(const Polygon& polygon, int cell, Turn turn) const {
  const bool on_side = turn.quarters() % 2 == 1;
  const Length across = on_side ? block_height : block_width;
  const Length down = on_side ? block_width : block_height;
  const Point centre = cells[cell].centre;
  const Point corner{centre.x - Length::inches(across.inches() / 2), centre.y - Length::inches(down.inches() / 2)};
  const Polygon upright = shifted(turned(polygon, block_width, block_height, turn), corner);
  return on_point ? turned_eighth(upright, centre) : upright;
}

int Plan::cell_at(int row, int column) const {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (cells[i].row == row && cells[i].column == column) return static_cast<int>(i);
  }
  return kNone;
}

Plan plan_of(const Setting& setting, Length block_width, Length block_height) {
  Plan plan;
  plan.block_width = block_width;
  plan.block_height = block_height;
  plan.on_point = setting.kind == Setting::Kind::on_point;
  const Length sash = setting.sashing ? setting.sashing->width : Length();
  plan.pitch = std::sqrt((block_width + sash).inches() * (block_height + sash).inches());

  const std::vector<int> counts = cells_in_rows(setting);
  const Lattice lattice(setting, block_width, block_height);
  for (int row = 0; row < static_cast<int>(counts.size()); ++row) {
    for (int column = 0; column < counts[row]; ++column) {
      plan.cells.push_back({row, column, lattice.centre(row, column), pattern_of_cell(setting, row, column)});
    }
  }
  plan.width = lattice.width();
  plan.height = lattice.height();
  add_sashing(plan, setting, lattice);
  add_fillers(plan, setting, lattice);
  add_borders(plan, setting);
  return plan;
}

}  // namespace farflung::setting
