// What lies around and between the blocks: sashing, setting triangles, half blocks, borders.
#pragma once

#include "setting/plan.hpp"

namespace farflung::setting {

/// Where the middles of cells lie before borders are added, (0, 0) being the top left corner inside the borders.
///
/// Straight and on-point settings are one lattice of steps along two axes; on point it lies on its corner.
class Lattice {
 public:
  Lattice(const Setting& setting, Length block_width, Length block_height);

  /// The middle of a cell; rows and columns from 0.
  Point centre(int row, int column) const;
  /// Of all that lies inside the borders: blocks, sashing, fillers.
  Length width() const { return width_; }
  Length height() const { return height_; }

  /// A point that lies `along` one cell step and `across` the other from the lattice's origin (which is the middle of
  /// cell (0, 0)), moved on by inches along the same two directions.
  Point at(double along, double across, double inches_along = 0, double inches_across = 0) const;

  double block_width() const { return block_width_; }    ///< inches
  double block_height() const { return block_height_; }  ///< inches
  double sash() const { return sash_; }                  ///< inches
  double diagonal() const { return diagonal_; }          ///< of a cell, inches; on point only
  double margin() const { return margin_; }              ///< what outer sashing adds on each side, inches

 private:
  Setting::Kind kind_;
  double block_width_, block_height_, sash_;
  double diagonal_ = 0;
  double margin_ = 0;
  Length width_, height_;
};

/// Strips and cornerstones where the setting has sashing; what fills the edge: setting triangles on point, half blocks
/// at the ends of brick's shorter rows.
void add_sashing(Plan& plan, const Setting& setting, const Lattice& lattice);
void add_fillers(Plan& plan, const Setting& setting, const Lattice& lattice);

/// Grows the plan by its borders and moves everything that is in it already.
void add_borders(Plan& plan, const Setting& setting);

}  // namespace farflung::setting
