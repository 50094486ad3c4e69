// Which prints meet inside each block: deals the prints to the slots of blocks that are not cut yet.
#pragma once

#include <vector>

#include "base/rng.hpp"
#include "makeup/balance.hpp"
#include "makeup/cuts.hpp"

namespace farflung::makeup {

/// How blocks are dealt; every field left as it is deals all that there is.
struct Options {
  Seed seed;
  std::vector<int> prints;  ///< what is dealt; empty: dealt_prints(quilt)
  std::vector<int> most;    ///< by print of the quilt, the slots it has cloth for; empty: cloth enough for all
  HalfSquares halves;       ///< what a whole cut is
};

/// A slot of one pattern and the blocks in which it is dealt: those that are neither sewn nor kept in their cell.
struct Deck {
  int pattern = 0, slot = 0;
  std::vector<int> blocks;
};

/// Every slot that is dealt, pattern by pattern.
std::vector<Deck> decks_of(const quilt::Quilt& quilt);

/// The prints that the blocks' slots hold already; where none does, all that no border, sashing, filler, binding,
/// backing or fixed slot uses, or all where those would be fewer than a block's slots.
std::vector<int> dealt_prints(const quilt::Quilt& quilt);

/// The quilt's blocks with prints dealt to every slot that is free: of blocks that are neither sewn nor kept in their
/// cell.
///
/// Guarantees: inside a block all dealt prints differ; each print fills each slot, and all slots together, as equally
/// as the counts allow (within one), or in whole cuts (within one cut). A print with cloth for less fills what it has
/// cloth for, of each slot its share, and the others share the rest as equally. A slot of a value, light or dark, is
/// shared among that half of the prints, as far as their cloth goes. Then, as nearly as a search finds: every two
/// prints meet inside blocks equally often, and adjoining patches are told apart. Same seed, same blocks.
///
/// Fails where there are fewer prints than slots in a block, or less cloth than slots.
Result<std::vector<block::Block>> deal(const quilt::Quilt& quilt, const Options& options);

}  // namespace farflung::makeup
