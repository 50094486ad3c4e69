// What meets across cells, slot by slot: contacts gathered so that a price is read, not searched.
#pragma once

#include <span>
#include <vector>

#include "quilt/quilt.hpp"
#include "setting/contacts.hpp"

namespace farflung::score {

using quilt::kNone;

/// All contacts between one slot of a block and one slot of another, or one print of the frame.
struct Meeting {
  int slot = 0;
  int other = 0;      ///< slot of the other block; for the frame: its print
  int seams = 0;      ///< pairs of patches that share a seam
  int points = 0;     ///< pairs of patches that share a point only
  double length = 0;  ///< of the seams, in pitches
  bool free = false;  ///< both may touch: neither touch nor corner counts here
};

/// A neighbour of a cell and the way it lies.
struct Neighbour {
  int cell = 0;
  /// As CellPair has it.
  int relation = 0;
  bool first = true;  ///< this cell is the first of the pair, the neighbour the second
};

/// Meetings of every pair of cells, patterns and turns, as tables.
class Meetings {
 public:
  Meetings(const quilt::Quilt& quilt, const setting::Plan& plan);

  const setting::Contacts& contacts() const { return contacts_; }
  /// The cells whose blocks share at least a point with the one in `cell`.
  std::span<const Neighbour> neighbours(int cell) const { return neighbours_[cell]; }
  int relations() const { return contacts_.relations(); }

  /// Of a block of pattern `a`, turned, in the first cell of a pair and one of pattern `b` in the second.
  std::span<const Meeting> between(int relation, int pattern_a, Turn turn_a, int pattern_b, Turn turn_b) const;

  /// The same seen from the block in a cell towards a neighbour: `slot` is always the cell's own.
  std::span<const Meeting> towards(const Neighbour& neighbour, int pattern, Turn turn, int pattern_there,
                                   Turn turn_there) const;

  /// Of a block in `cell` with the frame: Meeting::other is then a print, not a slot.
  std::span<const Meeting> with_frame(int cell, int pattern, Turn turn) const;

 private:
  struct Range {
    int begin = 0, end = 0;
  };
  std::size_t index(int relation, int pattern_a, Turn turn_a, int pattern_b, Turn turn_b) const;
  std::span<const Meeting> listed(Range range) const;
  Range gather(const std::vector<Meeting>& contacts);
  void gather_between(const quilt::Quilt& quilt, double pitch);
  void gather_with_frame(const quilt::Quilt& quilt, const setting::Plan& plan);

  setting::Contacts contacts_;
  int patterns_ = 0;
  std::vector<std::vector<Neighbour>> neighbours_;
  std::vector<Meeting> meetings_;
  std::vector<Range> between_;   ///< as seen from the first cell
  std::vector<Range> reversed_;  ///< as seen from the second
  std::vector<Range> with_frame_;
};

}  // namespace farflung::score
