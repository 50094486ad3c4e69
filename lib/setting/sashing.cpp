// Sashing, as a lattice of strips between cells and squares where strips meet.
#include <map>
#include <set>
#include <utility>

#include "setting/frame.hpp"

namespace farflung::setting {
namespace {

using Place = std::pair<int, int>;  ///< steps along, steps across

/// The lattice place of a cell: on point the axes run along the diagonals.
Place place_of(const Cell& cell, bool on_point) {
  if (!on_point) return {cell.column, cell.row};
  const int half = cell.row / 2;
  return cell.row % 2 == 0 ? Place{cell.column + half, half - cell.column}
                           : Place{cell.column + half + 1, half - cell.column};
}

/// Strips are named by the cell before them: the one after place (u, v) along, or after it across.
struct Strips {
  std::set<Place> upright;    ///< between (u, v) and (u + 1, v)
  std::set<Place> crosswise;  ///< between (u, v) and (u, v + 1)

  /// How many strips end at the square after (u, v) both ways.
  int ends_at(Place square) const {
    const auto [u, v] = square;
    return static_cast<int>(upright.count({u, v}) + upright.count({u, v + 1}) + crosswise.count({u, v}) +
                            crosswise.count({u + 1, v}));
  }
};

Strips strips_of(const Plan& plan, bool outer) {
  std::set<Place> cells;
  for (const Cell& cell : plan.cells) cells.insert(place_of(cell, plan.on_point));
  Strips strips;
  for (const auto& [u, v] : cells) {
    if (outer || cells.count({u + 1, v})) strips.upright.insert({u, v});
    if (outer || cells.count({u, v + 1})) strips.crosswise.insert({u, v});
    if (outer) {
      strips.upright.insert({u - 1, v});
      strips.crosswise.insert({u, v - 1});
    }
  }
  return strips;
}

/// Where four strips meet, and around an outer sashing's corners too. On point, where sashing does not run around the
/// outside, two strips end at a setting triangle: a square there could only be set in.
std::set<Place> squares_of(const Strips& strips, bool outer) {
  std::set<Place> squares;
  const int fewest = outer ? 2 : 4;
  const auto consider = [&](Place square) {
    if (strips.ends_at(square) >= fewest) squares.insert(square);
  };
  for (const auto& [u, v] : strips.upright) {
    consider({u, v});
    consider({u, v - 1});
  }
  for (const auto& [u, v] : strips.crosswise) {
    consider({u, v});
    consider({u - 1, v});
  }
  return squares;
}

/// Lays pieces of sashing on the lattice.
class Layer {
 public:
  Layer(Plan& plan, const Setting& setting, const Lattice& lattice)
      : plan_(plan), sashing_(*setting.sashing), lattice_(lattice) {}

  void upright(Place strip) {
    const auto [u, v] = strip;
    box(u + 0.5, v, lattice_.sash(), lattice_.block_height(), FramePatch::Role::sashing, sashing_.print);
  }

  void square(Place place) {
    const auto [u, v] = place;
    box(u + 0.5, v + 0.5, lattice_.sash(), lattice_.sash(), FramePatch::Role::cornerstone, sashing_.cornerstone);
  }

  /// One strip beside cells u0 .. u1, with the squares at its ends where it has them.
  void crosswise(int u0, int u1, int v, bool square_before, bool square_after) {
    const double half_width = lattice_.block_width() / 2;
    const double half_sash = lattice_.sash() / 2;
    const double from = -half_width - (square_before ? lattice_.sash() : 0);
    const double to = half_width + (square_after ? lattice_.sash() : 0);
    plan_.frame.push_back({FramePatch::Role::sashing,
                           0,
                           sashing_.print,
                           {lattice_.at(u0, v + 0.5, from, -half_sash), lattice_.at(u1, v + 0.5, to, -half_sash),
                            lattice_.at(u1, v + 0.5, to, half_sash), lattice_.at(u0, v + 0.5, from, half_sash)}});
  }

 private:
  void box(double u, double v, double width, double height, FramePatch::Role role, int print) {
    const double x = width / 2;
    const double y = height / 2;
    plan_.frame.push_back(
        {role,
         0,
         print,
         {lattice_.at(u, v, -x, -y), lattice_.at(u, v, x, -y), lattice_.at(u, v, x, y), lattice_.at(u, v, -x, y)}});
  }

  Plan& plan_;
  const Sashing& sashing_;
  const Lattice& lattice_;
};

/// Crosswise strips without cornerstones run through from end to end, squares included.
void add_running_strips(Layer& layer, const Strips& strips, const std::set<Place>& squares) {
  for (const auto& [u, v] : strips.crosswise) {
    if (strips.crosswise.count({u - 1, v})) continue;
    int last = u;
    while (strips.crosswise.count({last + 1, v})) ++last;
    layer.crosswise(u, last, v, squares.count({u - 1, v}) > 0, squares.count({last, v}) > 0);
  }
}

/// Brick rows do not line up, so that crosswise strips always run through and only the upright ones are pieced.
void add_brick_sashing(Plan& plan, const Setting& setting, const Lattice& lattice) {
  const double sash = lattice.sash();
  const double m = lattice.margin();
  const int print = setting.sashing->print;
  const auto add = [&](double left, double top, double width, double height) {
    plan.frame.push_back(
        {FramePatch::Role::sashing, 0, print,
         rectangle(Length::inches(left), Length::inches(top), Length::inches(width), Length::inches(height))});
  };
  const double width = lattice.width().inches();
  for (int row = 0; row < setting.rows; ++row) {
    const double top = m + row * (lattice.block_height() + sash);
    const bool shorter = row % 2 == 1;
    const int strips = shorter ? setting.columns : setting.columns - 1;
    const double first = shorter ? (lattice.block_width() - sash) / 2 : lattice.block_width();
    for (int i = 0; i < strips; ++i)
      add(m + first + i * (lattice.block_width() + sash), top, sash, lattice.block_height());
    if (m > 0) {
      add(0, top, sash, lattice.block_height());
      add(width - sash, top, sash, lattice.block_height());
    }
    if (row + 1 < setting.rows || m > 0) add(0, top + lattice.block_height(), width, sash);
  }
  if (m > 0) add(0, 0, width, sash);
}

}  // namespace

void add_sashing(Plan& plan, const Setting& setting, const Lattice& lattice) {
  if (!setting.sashing) return;
  if (setting.kind == Setting::Kind::brick) return add_brick_sashing(plan, setting, lattice);

  const Strips strips = strips_of(plan, setting.sashing->outer);
  const std::set<Place> squares = squares_of(strips, setting.sashing->outer);
  Layer layer(plan, setting, lattice);
  for (const Place& strip : strips.upright) layer.upright(strip);
  if (setting.sashing->cornerstone == kNone) return add_running_strips(layer, strips, squares);
  for (const auto& [u, v] : strips.crosswise) layer.crosswise(u, u, v, false, false);
  for (const Place& place : squares) layer.square(place);
}

}  // namespace farflung::setting
