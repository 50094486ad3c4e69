// Random moves that never break a rule: what annealing proposes.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "arrange/freedom.hpp"
#include "arrange/near_copies.hpp"
#include "base/rng.hpp"
#include "makeup/balance.hpp"
#include "score/pricer.hpp"

namespace farflung::arrange {

/// Prices of what only blocks that are not cut yet can change.
struct MakeUpPrice {
  double meeting = 0;  ///< of one more in the sum of squared meetings
  double alike = 0;    ///< of one block side of seam between prints that are one colour
};

/// A layout under moves: the pricer, the spares, the make-up, and what chance proposes next.
class Moves {
 public:
  /// swap: two blocks change places; turn: one turns where it lies; replace: a spare comes in; exchange: prints change.
  enum class Kind { none, swap, turn, replace, exchange };

  /// `balance` only where prints may be dealt anew, `clearance` only where not: then the pricer's layout is clear, and
  /// no move that is proposed makes it otherwise.
  Moves(score::Pricer& pricer, const Freedom& freedom, std::optional<makeup::Balance> balance, MakeUpPrice price,
        const Clearance* clearance = nullptr);

  /// Whether a move leaves copies as far apart as they are to be.
  bool stays_clear(const score::Swap& swap) const;
  bool stays_clear(const score::Replacement& replacement) const;
  const NearCopies* copies() const { return copies_ ? &*copies_ : nullptr; }  ///< none where all is clear
  std::span<const int> copies_in(int block) const { return clearance_->prints[block]; }

  /// Makes a swap or a turn, whatever comes near what.
  void swap(const score::Swap& swap);

  /// Makes a replacement by spare number `spare` of the place's pool.
  void replace(const score::Replacement& replacement, std::size_t spare);

  /// Proposes moves and makes those that Metropolis' rule accepts at this temperature; how many were proposed, at least
  /// one. Most are swaps: a place and where to begin are drawn by lot, then the place is tried with one partner after
  /// another, so that their prices are worked out side by side. Every pair is as likely as any other.
  int propose(Rng& rng, double temperature);

  /// Draws one move, all places equally likely. Kind::none: what was drawn would change nothing or break a rule.
  Kind draw(Rng& rng);

  /// What the drawn move costs; what it is when it is made.
  double cost();
  /// What (touch, F) changes by, make-up left out.
  score::Price price() const;
  /// Makes the drawn move; its cost must have been asked for.
  void make();

  /// The price of all that was made since, counted from the costs that were asked for; what make-up costs is left out.
  double spent() const { return spent_; }

  /// Blocks of a pool that lie nowhere now.
  const std::vector<int>& spares(int pool) const { return spares_[pool]; }
  /// Whether anything may move at all.
  bool any() const { return !free_.empty() || !freedom_.decks.empty(); }

 private:
  int walk(std::uint64_t bits, Rng& rng, double temperature);
  int along(int a, int first, std::span<float> least, Rng& rng, double temperature);
  int of_pool(int pool, int first, int count) const;
  int looks(int place) const;
  bool swap_at_best(int a, int b, double bar, Rng& rng);
  int best_form(int place, int block, Rng& rng) const;
  Kind draw_swap(std::uint64_t bits);
  Kind draw_turn(std::uint64_t bits);
  Kind draw_replacement(std::uint64_t bits);
  Kind draw_exchange(std::uint64_t bits);
  Kind draw_other(std::uint32_t choice, std::uint64_t bits);
  int any_form(int block, std::uint32_t bits) const;

  score::Pricer& pricer_;
  const Freedom& freedom_;
  const Clearance* clearance_ = nullptr;
  std::optional<NearCopies> copies_;      ///< where there is a clearance
  std::vector<std::vector<int>> spares_;  ///< by pool
  std::vector<int> free_;
  std::vector<int> look_;  ///< by place: two that look alike gain nothing by a swap
  std::optional<makeup::Balance> balance_;
  MakeUpPrice make_up_price_;
  std::uint32_t turn_share_ = 0, replace_share_ = 0, exchange_share_ = 0;  ///< cumulated, of 2^16
  std::uint32_t walk_share_ = 0;  ///< of 2^32: so many of all proposals are swaps, each walk many of them
  int walk_length_ = 0;

  Kind kind_ = Kind::none;
  score::Swap swap_;
  score::Replacement replacement_;
  score::Exchange exchange_;
  std::size_t spare_ = 0;  ///< which of its pool's spares comes in
  double make_up_cost_ = 0;
  double asked_ = 0;  ///< the layout's part of the last cost
  double spent_ = 0;
};

}  // namespace farflung::arrange
