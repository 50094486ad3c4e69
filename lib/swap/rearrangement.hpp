// A layout a few swaps away from the one on the wall: what it scores, and how much work lies between.
#pragma once

#include <vector>

#include "score/pricer.hpp"

namespace farflung::swap {

using score::Held;
using score::kNone;

/// What may move: nothing that is kept, no block into another pattern's cell or a turn it may not take.
struct Freedom {
  std::vector<int> places;              ///< those whose blocks may move
  std::vector<std::vector<int>> forms;  ///< by block
  std::vector<int> klass;               ///< by place: blocks change places only within a class
};

Freedom freedom_of(const score::Measure& measure, const score::Model& model, const setting::Arrangement& wall);

/// A layout's worth: touches, then their length, then seam ends that do not nest where that is a rule, then F; and the
/// half swaps from the wall to it.
struct Worth {
  score::TouchSum touch;
  double F = 0;
  friend bool better(const Worth& a, const Worth& b);
};

/// A move with the price that a search sums: F and so much for each touch.
struct Priced {
  score::Swap move;
  double cost = 0;
};

/// Knows the price of every swap exactly (score::Pricer's arithmetic, a block's best turn found by look-up), and the
/// work: a cycle of L blocks that change places is L - 1 swaps, with turns free; a block that only turns is half a
/// swap.
class Rearrangement {
 public:
  Rearrangement(const score::Model& model, const Freedom& freedom, std::vector<Held> wall, score::TouchPrice price);
  Rearrangement(const Rearrangement&) = delete;
  Rearrangement& operator=(const Rearrangement&) = delete;

  const std::vector<Held>& held() const { return held_; }
  const Worth& worth() const { return worth_; }             ///< against the wall, which is 0
  int work() const { return work_; }                        ///< half swaps from the wall
  const std::vector<int>& moved() const { return moved_; }  ///< places that differ from the wall, in no order
  const Freedom& freedom() const { return freedom_; }

  bool at_home(int place) const { return held_[place].block == wall_[place].block; }
  int home_block(int place) const { return wall_[place].block; }
  int home_form(int place) const { return wall_[place].form; }
  int place_of(int block) const { return place_[block]; }

  /// A worth as the search sums it.
  double cost_of(const Worth& worth) const {
    return worth.F + price_.count * worth.touch.count + price_.length * worth.touch.length +
           price_.end * worth.touch.ends;
  }

  /// Exact price of a move.
  double cost(const score::Swap& move) const;

  /// The swap of two places with the turns that cost least; a block that comes home comes home as it was.
  Priced best_swap(int a, int b) const;
  /// The best other turn for the block in `place`; the form it has, at no cost, where it has no other.
  Priced best_turn(int place) const;

  /// Half swaps more (or fewer) that a move makes.
  int work_of(const score::Swap& move) const;

  /// Makes a move; returns the one that takes it back.
  score::Swap apply(const score::Swap& move);

  /// Makes the layout `held`.
  void become(const std::vector<Held>& held);

 private:
  score::Lying lying(Held held) const { return {held.form, pieces()[held.block].prints.data()}; }
  const std::vector<score::Piece>& pieces() const { return model_.pieces; }
  int best_form(int place, int block) const;
  double contact_cost(int a, Held in_a, int b, Held in_b) const;
  score::TouchSum touch_change(int a, Held in_a, int b, Held in_b) const;
  int cycle(int place) const;
  void note_moved(int place);

  const score::Model& model_;
  const Freedom& freedom_;
  score::TouchPrice price_;
  std::vector<Held> wall_, held_;
  std::vector<int> home_, place_;  ///< by block
  std::vector<int> moved_, index_of_moved_;
  Worth worth_;
  int work_ = 0;
  score::PairField pairs_;
  score::ContactField contacts_;
};

}  // namespace farflung::swap
