// What her hands move as one: a block by itself, or blocks that are sewn to one another.
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "swap/step.hpp"

namespace farflung::swap {

/// A block, or the blocks of a pair, a row or a section; stages that share a block are one unit.
struct Unit {
  std::vector<int> blocks;   ///< row by row, in the unit's first way up
  std::vector<Turn> turns;   ///< of each block there
  bool turns_round = false;  ///< of a sewn unit: it may hang the other way up, and does not look the same so
};

/// Where a unit hangs, and where others of its shape can.
struct Site {
  std::vector<int> cells;  ///< row by row
  bool kept = false;       ///< by hand: what hangs there stays
  int klass = 0;           ///< units change places within a class: cells of equal patterns, equally spaced

  bool sewn() const { return cells.size() > 1; }
};

/// The sites of a quilt's wall. On sites a layout is an Arrangement again, of units: `block` is the unit in each site,
/// `turn` a block's own turn, or of a sewn unit none or two quarters. Without sewn stages the sites are the cells that
/// hold a block, and the units are the quilt's blocks.
class Sites {
 public:
  Sites(const quilt::Quilt& quilt, const setting::Plan& plan);

  const std::vector<Site>& sites() const { return sites_; }
  const std::vector<Unit>& units() const { return units_; }   ///< the quilt's blocks by themselves, then what is sewn
  const setting::Arrangement& wall() const { return wall_; }  ///< on sites
  const std::vector<int>& kinds() const { return kinds_; }    ///< by unit: equal for what nobody could tell apart

  /// A layout of cells as one of the sites that hang on the wall.
  struct Fitted {
    setting::Arrangement layout;  ///< on sites
    std::vector<int> torn;        ///< sewn sites that it fills with what is no unit of the wall's
  };
  /// Another layout of the same cells. Sewn units are found by their blocks, else by blocks of equal make-up.
  Fitted fitted(const setting::Arrangement& layout) const;

  /// A unit as it hangs so turned.
  Unit hanging(int unit, Turn turn) const;

  /// A layout of units, in cells.
  setting::Arrangement in_cells(const setting::Arrangement& on_sites) const;

  /// A step between sites as one between cells; `before` is the layout of units that it starts from.
  Step in_cells(const Step& step, const setting::Arrangement& before) const;

 private:
  /// Make-ups and turns, row by row: how a unit looks from across the room.
  using Look = std::vector<std::pair<int, int>>;

  void find_sites(const quilt::Quilt& quilt);
  void find_classes(const setting::Plan& plan);
  void find_units(const quilt::Quilt& quilt, const setting::Plan& plan);
  Look look(const Unit& unit) const;

  setting::Arrangement empty_cells_;
  int blocks_ = 0;  ///< how many units are single blocks
  std::vector<Site> sites_;
  std::vector<Unit> units_;
  std::vector<int> kinds_;
  std::vector<int> class_of_unit_;  ///< of what is sewn
  setting::Arrangement wall_;
};

}  // namespace farflung::swap
