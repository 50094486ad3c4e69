// Which patches meet across cells: worked out from the patches' geometry once, then read from tables.
#pragma once

#include <span>
#include <vector>

#include "base/plane.hpp"
#include "block/pattern.hpp"
#include "setting/plan.hpp"

namespace farflung::setting {

/// A patch of one block meets a patch of another, or of the frame.
struct PatchContact {
  int patch_a = 0;  ///< index into the first block's pattern
  int patch_b = 0;  ///< index into the second block's pattern, or into Plan::frame
  Length seam;      ///< zero: they share a point only
};

/// Two cells whose blocks share at least a point. Every unordered pair is listed once, first < second.
struct CellPair {
  int first = 0, second = 0;  ///< cells
  int relation = 0;           ///< how the second lies to the first: an index for Contacts::between
};

/// Guarantees: every pair of patches of different blocks, or of block and frame, that shares a seam or a point is
/// listed exactly once, its seam being the whole length they share; nothing else is listed.
///
///   for (CellPair pair : contacts.pairs())
///     for (PatchContact c : contacts.between(pair.relation, pattern_a, turn_a, pattern_b, turn_b)) ...
class Contacts {
 public:
  /// `patterns` are the quilt's; blocks are taken in each turn that their pattern allows, and in no other.
  Contacts(const Plan& plan, const std::vector<block::Pattern>& patterns);

  std::span<const CellPair> pairs() const { return pairs_; }
  /// How many ways there are for a second cell to lie to the first: pairs as far apart the same way share one.
  int relations() const { return relations_; }

  /// Of a block of pattern_a, so turned, in the first cell of a pair and one of pattern_b in the second.
  std::span<const PatchContact> between(int relation, int pattern_a, Turn turn_a, int pattern_b, Turn turn_b) const;
  /// Of a block in `cell` with the patches of Plan::frame; none for a pattern that does not belong there.
  std::span<const PatchContact> with_frame(int cell, int pattern, Turn turn) const;

 private:
  struct Range {
    int begin = 0, end = 0;
  };
  std::span<const PatchContact> listed(Range range) const;
  std::size_t between_index(int relation, int pattern_a, Turn turn_a, int pattern_b, Turn turn_b) const;

  void find_pairs(const Plan& plan);
  void find_between(const Plan& plan, const std::vector<block::Pattern>& patterns);
  void find_with_frame(const Plan& plan, const std::vector<block::Pattern>& patterns);

  int patterns_ = 0;
  int relations_ = 0;
  std::vector<CellPair> pairs_;
  std::vector<PatchContact> contacts_;
  std::vector<Range> between_;
  std::vector<Range> with_frame_;
};

}  // namespace farflung::setting
