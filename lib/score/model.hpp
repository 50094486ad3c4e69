// A layout as numbers: what an incremental price is worked out from. A quilt gives one; so does any table of weights.
#pragma once

#include <cstdint>
#include <limits>
#include <memory>
#include <vector>

#include "score/kernel.hpp"
#include "score/measure.hpp"
#include "score/meetings.hpp"
#include "score/reading.hpp"

namespace farflung::score {

/// A pattern in one of its turns, and where nesting is asked for pressed in one of its two ways.
struct Form {
  int pattern = 0;
  Turn turn;
  bool other = false;  ///< pressed the other way; told apart only where nesting is asked for
  int first_row = 0;   ///< of the form's slots among the rows of a contact field
  int slots = 0;
};

/// What the pair fields see of a block, or of one slot of it: its prints' shares and its cast.
struct Parts {
  std::vector<Share> shares;
  Reading cast{};
  std::uint64_t mask = 0;      ///< bit p % 64 for each print p: without a common bit two blocks share no print
  double spread_square = 0;    ///< sum over prints of spread_weight * share^2
  double coverage_square = 0;  ///< the same with coverage_weight
};

/// One block, or what there is of it.
struct Piece {
  int pattern = 0;
  std::vector<int> prints;  ///< by slot
  Parts parts;
};

/// Everything a price needs; no rearranging changes it, but dealing changes pieces. With weights w(p, i) of print p in
/// place i and casts g(i),
///
///   F = sum_p sum_{i<j} spread_weight(p) spread(i, j) w(p, i) w(p, j)
///     + sum_p sum_{i, j} coverage_weight(p) coverage(i, j) w(p, i) w(p, j) + sum_i sum_p linear(i) w(p, i)
///     + sum_{i, j} (evenness_weight evenness(i, j) + streak_weight streaks(i, j)) g(i).g(j)
///     + what the contacts cost + what copies in line and the closest two cost + a constant
///
/// which for a quilt's model is the F of its measure.
struct Model {
  int places = 0;
  int prints = 0;
  Kernel spread, coverage, evenness, streaks;          ///< a kernel without places weighs nothing
  std::vector<double> spread_weight, coverage_weight;  ///< by print
  std::vector<double> linear;                          ///< by place
  double evenness_weight = 0, streak_weight = 0;

  std::vector<Form> forms;
  std::vector<std::vector<int>> forms_of;    ///< by pattern
  int rows = 0;                              ///< of a contact field, per place
  std::shared_ptr<const Meetings> meetings;  ///< none: nothing meets
  std::vector<int> cell, place_of_cell;      ///< by place; by cell
  std::vector<int> pattern_of_place;         ///< kNone: any
  std::vector<double> alike;                 ///< by print, print: cost of a pitch of seam between them
  double corner_weight = 0;
  double gradation_weight = 0;
  GradationGoal gradation;                      ///< meant where its weight is not 0
  double nest_weight = 0;                       ///< of each seam end that does not nest
  bool nest_rule = false;                       ///< such ends are counted beside the touches
  std::shared_ptr<const EndTables> ends;        ///< none: nothing is asked of seam ends
  double lines_weight = 0, closest_weight = 0;  ///< of each triple at equal steps; of each pitch
  std::shared_ptr<const PlaceLattice> lattice;  ///< meant where one of the two is not 0
  std::vector<bool> pressed_other;              ///< by block, as the quilt lies; empty where nothing is asked

  std::vector<SlotFacts> facts;   ///< by pattern
  std::vector<Reading> readings;  ///< by print
  std::vector<Piece> pieces;      ///< by block
  Reading mean_reading{};         ///< what casts are measured from

  /// kNone where the pattern does not allow it.
  int form_of(int pattern, Turn turn, bool other = false) const;
  /// The form in which a block lies so turned, pressed as it is in the quilt (or as it is chosen to be).
  int form_of_block(int block, Turn turn) const;
  /// The forms that a block may take in a turn: both ways of pressing where it is not pressed yet.
  std::vector<int> forms_of_block(const block::Block& block, Turn turn) const;
  /// Of a whole block, its prints by slot; slots that hold no print count for nothing.
  Parts parts_of(int pattern, const std::vector<int>& prints) const;
  /// Of one slot alone, filled by `print`: what an exchange of prints moves.
  Parts part_of_slot(int pattern, int slot, int print) const;

 private:
  friend Model model_of(const Measure& measure);
  friend Model spread_model(const Kernel& weights, const std::vector<int>& print, int prints);
  void weigh(Parts& parts) const;
};

/// The model of a quilt's measure: prices that it gives are exact changes of the measure's F.
Model model_of(const Measure& measure);

/// The spread term alone on any table of weights, any boundary: `print` by block, kNone a blank that costs nothing. One
/// block a place; F is the sum over pairs of places that hold the same print.
Model spread_model(const Kernel& weights, const std::vector<int>& print, int prints);

}  // namespace farflung::score
