// What swaps cost at least, a place with many others side by side: eight places to a record, in single precision.
#pragma once

#include <array>
#include <initializer_list>
#include <span>
#include <vector>

#include "score/pair_field.hpp"

namespace farflung::score {

/// A number of each of eight places side by side.
struct alignas(32) Eight {
  static constexpr int kWide = 8;
  float at[kWide] = {};
};

/// Holds of every place what a swap with it is priced from, eight places to a record, so that the prices of 64 swaps
/// come from some hundred lines of the cache in order instead of several hundred here and there.
///
/// Numbers are rounded to single precision when they change and never summed in it, so that nothing drifts; what
/// rounding can have done to a price is taken off it. No price is above the exact one, and none below it by more than
/// some millionths of the sizes that it is made of.
class SwapBounds {
 public:
  explicit SwapBounds(const Model& model);

  /// The potentials in which these parts have a hand have changed.
  void follow(std::initializer_list<const Parts*> changed, const PairField& pairs);
  void follow_all(const PairField& pairs);

  /// `parts` lie in `place` now; the potentials are followed.
  void lies(int place, const Parts& parts, const PairField& pairs);

  /// What the contacts of the block in `place` cost now: no swap saves more of them.
  void contacts(int place, double cost);

  /// At most what the swap of the block in a with that in each of the places from `first` on costs.
  void least_costs(int a, int first, std::span<float> least) const;

  struct HeldHere;  // what swap_bounds.cpp reads of a place and of a stretch of others
  struct Here;
  struct Kernels;

 private:
  const Eight* record(int tile) const { return &records_[static_cast<std::size_t>(tile) * fields_]; }
  float& field(int place, int field) {
    return records_[static_cast<std::size_t>(place / Eight::kWide) * fields_ + field].at[place % Eight::kWide];
  }
  void take_kernels();
  void take_potential(int print, const PairField& pairs);
  void take_own(int place, const PairField& pairs);
  void take_casts(const PairField& pairs);
  void take_shares(int a, std::vector<HeldHere>& shares) const;
  Here here_in(int a) const;
  void read_kernels(int a, int tile, int tiles, Kernels& kernels) const;
  void find_rounding();

  const Model& model_;
  int tiles_ = 0;
  int slots_ = 0;                                 ///< shares of one block, at most
  int fields_ = 0;                                ///< of a record
  std::vector<Eight> records_;                    ///< by tile, by field
  std::vector<Eight> potentials_;                 ///< Psi, by tile, by print
  std::vector<std::vector<int>> copies_;          ///< by print: places
  std::array<Eight, 4> largest_potential_{};      ///< |V| so far, by component, by place of a tile
  std::array<float, 4> largest_reading_{};        ///< |g| so far, by component
  float rounding_ = 0;                            ///< what it can have done to a price's casts
  std::vector<Eight> spread_, coverage_, casts_;  ///< the kernels by place, by tile, where they fit
};

}  // namespace farflung::score
