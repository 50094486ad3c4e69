// What may move: kept cells, turns that a block may take, cells of a pattern's own. No move that breaks one is ever
// made.
#pragma once

#include <vector>

#include "score/model.hpp"
#include "score/pricer.hpp"

namespace farflung::arrange {

using score::Held;
using score::kNone;

/// Places whose blocks may change places with each other, and the blocks that lie there or wait as spares.
struct Pool {
  std::vector<int> places;
  std::vector<int> blocks;
};

/// Blocks of one pattern that may exchange what one slot holds.
struct Deck {
  int slot = 0;
  std::vector<int> blocks;
};

/// The rules of one quilt as lists that a move is drawn from.
struct Freedom {
  /// Each place and block in one at most; what is kept in none.
  std::vector<Pool> pools;
  std::vector<int> pool_of_place;         ///< kNone: kept
  std::vector<std::vector<int>> forms;    ///< by block: the forms it may take
  std::vector<Deck> decks;                ///< empty where blocks are as they are
  std::vector<int> kind;                  ///< by block: blocks of one kind hold the same prints in the same slots
  std::vector<std::vector<int>> picture;  ///< by block, as its forms: the number of what it shows, whatever its slots
  std::vector<int> look;  ///< by block: of one look are also those that show the same when one is turned
};

/// Of a quilt whose blocks lie as `layout` says. `open`: prints may be dealt anew to blocks that are not sewn or kept.
Freedom freedom_of(const quilt::Quilt& quilt, const score::Measure& measure, const score::Model& model, bool open);

/// The layouts in which every block that may move shows the same picture, one for each that all of them can show: of
/// half-square triangles in two prints four. Blocks stay in their places, turned in the first form that shows it. None
/// where they are not so alike, or nothing may move.
std::vector<std::vector<Held>> all_one_way(const Freedom& freedom, const std::vector<Held>& held);

/// No more layouts than this differ in what they show, or in how seams nest where that is asked: 1 where nothing is
/// left to choose but what no one would see. Prints are as they are dealt.
double layouts_at_most(const Freedom& freedom, const score::Measure& measure);

/// How many different pictures the blocks of a layout show, whose prints are as they were: 1 where all lie one way.
int pictures_shown(const Freedom& freedom, const std::vector<Held>& held);

}  // namespace farflung::arrange
