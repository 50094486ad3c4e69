// How well a make-up mixes: which prints meet inside blocks, and whether adjoining patches are told apart.
#pragma once

#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::makeup {

using quilt::kNone;

/// The prints of every block by slot, kNone where none is dealt.
using Prints = std::vector<std::vector<int>>;

/// How well a make-up mixes; less is better.
struct Mix {
  int clashes = 0;  ///< pairs of slots of one block that hold the same print
  double meetings =
      0;  ///< sum over pairs of prints of (times they meet inside a block)^2: least when all meet equally often
  double alike = 0;  ///< sum over seams inside blocks of length / block side x max(0, 1 - dE00 / 10)^2

  friend Mix operator-(Mix a, Mix b) { return {a.clashes - b.clashes, a.meetings - b.meetings, a.alike - b.alike}; }
};

/// Counts of a make-up that know what an exchange of one slot's prints between two blocks does to them, exactly and in
/// a time that does not grow with the number of blocks. Slots whose pattern names their print are never counted.
class Balance {
 public:
  /// `prints` as the blocks are dealt now, in the order of the quilt's blocks.
  Balance(const quilt::Quilt& quilt, Prints prints);

  const Prints& prints() const { return prints_; }
  const Mix& mix() const { return mix_; }

  /// What exchanging the prints of `slot` between two blocks of one pattern changes.
  Mix delta(int block_a, int block_b, int slot) { return delta(block_a, slot, block_b, slot); }
  /// Makes the exchange that delta prices.
  void apply(int block_a, int block_b, int slot) { apply(block_a, slot, block_b, slot); }

  /// The same for two slots of two different blocks.
  Mix delta(int block_a, int slot_a, int block_b, int slot_b);
  void apply(int block_a, int slot_a, int block_b, int slot_b);

  /// Whether no print would stand twice in either block after the exchange.
  bool keeps_apart(int block_a, int block_b, int slot) const;

 private:
  struct InnerSeam {
    int slot_a = 0, slot_b = 0;
    double length = 0;  ///< over the block's side
  };

  void put(int block, int slot, int print, int sign);
  double seams_alike(int block, int slot) const;

  int all_ = 0;                                ///< prints
  std::vector<int> pattern_;                   ///< by block
  std::vector<std::vector<int>> dealt_;        ///< by pattern: the slots that are dealt
  std::vector<std::vector<InnerSeam>> seams_;  ///< by pattern
  std::vector<double> likeness_;               ///< by print, print
  Prints prints_;
  std::vector<int> met_;  ///< by print, print
  Mix mix_;
};

}  // namespace farflung::makeup
