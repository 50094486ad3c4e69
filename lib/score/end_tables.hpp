// Seam ends that meet across joins, as tables: by how two blocks lie to each other and are turned.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"
#include "score/meetings.hpp"

namespace farflung::score {

/// Ends that meet on one join, both blocks pressed as drawn. Left and right are one word where they lie opposite ways
/// on the top, so that alike ends nest while the two blocks are pressed the same way, unlike ends while they are not.
struct EndCount {
  int alike = 0, unlike = 0;
  int open = 0;  ///< one of the two is pressed open: it lies flat, and nothing is asked of it

  /// Ends that could nest: neither of the two is pressed open.
  int asked() const { return alike + unlike; }
  int unnested(bool pressed_alike) const { return pressed_alike ? unlike : alike; }
};

/// For every way that two blocks can lie to each other, how many seam ends meet there. Worked out once for a quilt.
class EndTables {
 public:
  EndTables() = default;
  EndTables(const quilt::Quilt& quilt, const setting::Plan& plan, const setting::Contacts& contacts);

  /// Of a block of pattern `a`, turned, in the first cell of a pair and one of pattern `b` in the second.
  const EndCount& between(int relation, int pattern_a, Turn turn_a, int pattern_b, Turn turn_b) const {
    return counts_[index(relation, pattern_a, turn_a, pattern_b, turn_b)];
  }

  /// The same seen from the block in a cell towards a neighbour.
  const EndCount& towards(const Neighbour& neighbour, int pattern, Turn turn, int pattern_there,
                          Turn turn_there) const {
    return neighbour.first ? between(neighbour.relation, pattern, turn, pattern_there, turn_there)
                           : between(neighbour.relation, pattern_there, turn_there, pattern, turn);
  }

 private:
  std::size_t index(int relation, int pattern_a, Turn turn_a, int pattern_b, Turn turn_b) const {
    const std::size_t a = static_cast<std::size_t>(relation) * patterns_ + pattern_a;
    const std::size_t b = (a * Turn::kCount + turn_a.quarters()) * patterns_ + pattern_b;
    return b * Turn::kCount + turn_b.quarters();
  }

  int patterns_ = 0;
  std::vector<EndCount> counts_;
};

}  // namespace farflung::score
