// A layout that knows the exact price of every change before it is made.
#pragma once

#include <span>
#include <vector>

#include "score/contact_field.hpp"
#include "score/copy_field.hpp"
#include "score/model.hpp"
#include "score/pair_field.hpp"
#include "score/swap_bounds.hpp"

namespace farflung::score {

/// A block in a form: what one place holds.
struct Held {
  int block = kNone;
  int form = 0;
  friend bool operator==(const Held&, const Held&) = default;
};

/// What a change does to (touch, F); less is better.
struct Price {
  TouchSum touch;
  double F = 0;
};

/// Two blocks change places and may turn; with b kNone, the block in a turns where it lies.
struct Swap {
  int a = 0, b = kNone;
  int form_a = 0, form_b = 0;  ///< the forms that a and b hold afterwards
};

/// A block that lies nowhere takes the place of one that does.
struct Replacement {
  int place = 0;
  Held in;
};

/// Two blocks of one pattern change the prints of one slot; the blocks may lie anywhere or nowhere.
struct Exchange {
  int block_a = 0, block_b = 0, slot = 0;
};

/// Prices are exact: delta(move) is what the whole (touch, F) changes by when apply(move) is called, up to the rounding
/// of sums of doubles. A price costs a few look-ups a slot however many places there are; apply costs O(places).
///
///   Pricer pricer(model, layout, {.count = 0.2});
///   const Swap swap{3, 7, pricer.held()[7].form, pricer.held()[3].form};
///   if (pricer.cost(swap) < threshold) pricer.apply(swap);
///
/// E[.] stays what the model says: exchanges can change the casts, and with them the means of a new measure.
class Pricer {
 public:
  /// `held` by place, all full. `touch_price` goes into cost(), not into delta().
  Pricer(const Model& model, std::vector<Held> held, TouchPrice touch_price);
  Pricer(const Pricer&) = delete;
  Pricer& operator=(const Pricer&) = delete;

  const Model& model() const { return model_; }
  const std::vector<Held>& held() const { return held_; }
  const Piece& piece(int block) const { return pieces_[piece_of_block_[block]]; }
  std::vector<Piece> pieces() const;                                ///< by block: as they are dealt now
  int place_of(int block) const { return place_of_block_[block]; }  ///< kNone: a spare

  TouchSum touch() const;  ///< of the whole layout, counted anew
  double F() const;        ///< of the whole layout, summed anew, but for the model's constant

  /// F + touch_price . touch: what annealing sums.
  double cost(const Swap& swap) const;
  double cost(const Replacement& replacement) const;
  double cost(const Exchange& exchange) const;

  /// At most what cost() says of the swaps of the block in a with each of the places from `first` on, whatever forms
  /// they take: what blocks cost as points, less what contacts cost now. Several times as fast as cost().
  void least_costs(int a, int first, std::span<float> least) const;

  /// Whether the blocks in two places meet.
  bool meet(int a, int b) const { return !contacts_.empty() && contacts_.meet(a, b); }

  /// What the contacts of a block would cost, its neighbours as they are.
  double contacts_of(int place, const Held& held) const {
    return contacts_.empty() ? 0 : contacts_.cost(place, lying(held));
  }

  Price delta(const Swap& swap) const;
  Price delta(const Replacement& replacement) const;
  Price delta(const Exchange& exchange) const;

  void apply(const Swap& swap);
  void apply(const Replacement& replacement);
  void apply(const Exchange& exchange);

 private:
  /// A place before and after a change; a place kNone has none.
  struct Change {
    int place = kNone;
    Lying was, is;
  };

  Lying lying(const Held& held) const { return {held.form, piece(held.block).prints.data()}; }
  double contact_cost(const Change& a, const Change& b) const;
  TouchSum touch_change(const Change& a, const Change& b) const;
  Price price_of(double cost, TouchSum touch) const;
  template <typename Use>
  void with_copies(const Swap& swap, Use use) const;
  template <typename Use>
  void with_copies(const Replacement& replacement, Use use) const;
  template <typename Use>
  void with_copies(const Exchange& exchange, Use use) const;
  template <typename Move>
  double copies_cost(const Move& move) const;
  template <typename Move>
  void tell_copies(const Move& move);
  void tell_contacts(const Change& change);
  void take_pieces();
  void lies(int place);
  Piece& own_piece(int block);

  template <typename Use>
  auto with_changes(const Swap& swap, Use use) const;
  template <typename Use>
  auto with_changes(const Replacement& replacement, Use use) const;
  template <typename Use>
  auto with_changes(const Exchange& exchange, Use use) const;

  const Model& model_;
  TouchPrice touch_price_;
  std::vector<Piece> pieces_;  ///< each once, however many blocks are alike: a few stay in the cache
  std::vector<int> piece_of_block_;
  std::vector<int> uses_;  ///< by piece: how many blocks
  std::vector<Held> held_;
  std::vector<int> place_of_block_;
  PairField pairs_;
  SwapBounds bounds_;
  ContactField contacts_;
  CopyField copies_;
  std::vector<double> contacts_now_;  ///< by place: what the contacts of the block there cost
};

}  // namespace farflung::score
