// A layout a few swaps away from the one on the wall: what it scores, and how much work lies between.
#pragma once

#include <vector>

#include "score/pricer.hpp"
#include "swap/sites.hpp"

namespace farflung::swap {

using score::kNone;

/// A unit in a site and the form that it hangs in: a block's form; of a sewn unit 0, or 1 where it is turned round.
using score::Held;

/// What may move: nothing that is kept, no unit into a site of another class, no block into a turn it may not take.
/// Sites and units are numbered as in Sites; without sewn stages a site is a place and a unit a block.
struct Freedom {
  std::vector<int> sites;               ///< those whose units may move
  std::vector<std::vector<int>> forms;  ///< by unit
  std::vector<int> klass;               ///< by site: units change places only within a class

  std::vector<std::vector<int>> places;  ///< by site
  std::vector<std::vector<std::vector<Held>>>
      blocks_hang;  ///< by unit, of sewn ones by form: its blocks in their forms
};

/// Of the quilt that `measure` was made of, as it hangs.
Freedom freedom_of(const score::Measure& measure, const score::Model& model, const Sites& sites);

/// What hangs in each site.
std::vector<Held> held_of(const setting::Arrangement& on_sites, const score::Model& model, const Sites& sites);

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
/// work: a cycle of L units that change places is L - 1 swaps, with turns free; a unit that only turns is half a swap.
/// Moves are score::Swaps of sites; a price of sewn units costs the square of their blocks.
class Rearrangement {
 public:
  Rearrangement(const score::Model& model, const Freedom& freedom, std::vector<Held> wall, score::TouchPrice price);
  Rearrangement(const Rearrangement&) = delete;
  Rearrangement& operator=(const Rearrangement&) = delete;

  const std::vector<Held>& held() const { return held_; }
  const Worth& worth() const { return worth_; }             ///< against the wall, which is 0
  int work() const { return work_; }                        ///< half swaps from the wall
  const std::vector<int>& moved() const { return moved_; }  ///< sites that differ from the wall, in no order
  const Freedom& freedom() const { return freedom_; }

  /// Whether the unit of the wall hangs in the site, turned or not; home_unit and home_form are what hangs there on the
  /// wall.
  bool at_home(int site) const { return held_[site].block == wall_[site].block; }
  int home_unit(int site) const { return wall_[site].block; }
  int home_form(int site) const { return wall_[site].form; }
  int site_of(int unit) const { return site_[unit]; }

  /// A worth as the search sums it.
  double cost_of(const Worth& worth) const {
    return worth.F + price_.count * worth.touch.count + price_.length * worth.touch.length +
           price_.end * worth.touch.ends;
  }

  /// Exact price of a move.
  double cost(const score::Swap& move) const;

  /// The swap of two sites with the turns that cost least; a unit that comes home comes home as it was.
  Priced best_swap(int a, int b) const;
  /// The best other turn for the unit in `site`; the form it has, at no cost, where it has no other.
  Priced best_turn(int site) const;

  /// Half swaps more (or fewer) that a move makes.
  int work_of(const score::Swap& move) const;

  /// Makes a move; returns the one that takes it back.
  score::Swap apply(const score::Swap& move);

  /// Makes the layout `held`.
  void become(const std::vector<Held>& held);

 private:
  /// A place before and after a move.
  struct Change {
    int place = 0;
    Held was, is;
  };

  bool sewn(int site) const { return freedom_.places[site].size() > 1; }
  int place(int site) const { return freedom_.places[site].front(); }
  std::vector<Change> changes(const score::Swap& move) const;
  double cost_of(const std::vector<Change>& changes) const;

  score::Lying lying(Held held) const { return {held.form, pieces()[held.block].prints.data()}; }
  const score::Parts& parts(Held held) const { return pieces()[held.block].parts; }
  const std::vector<score::Piece>& pieces() const { return model_.pieces; }
  int best_form(int site, int block) const;
  Priced best_swap_of_sewn(int a, int b) const;
  double contact_cost(int a, Held in_a, int b, Held in_b) const;
  score::CopyField::Change copies_of(const Change& change) const;
  double swap_of_copies(int a, int b) const;
  score::TouchSum touch_change(const std::vector<Change>& changes) const;
  int cycle(int site) const;
  void note_moved(int site);

  const score::Model& model_;
  const Freedom& freedom_;
  score::TouchPrice price_;
  std::vector<Held> wall_, held_;  ///< by site
  std::vector<Held> lies_;         ///< by place: the block there and its form
  std::vector<int> home_, site_;   ///< by unit
  std::vector<int> moved_, index_of_moved_;
  Worth worth_;
  int work_ = 0;
  score::PairField pairs_;
  score::ContactField contacts_;
  score::CopyField copies_;
};

}  // namespace farflung::swap
