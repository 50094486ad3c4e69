// Spread, coverage, evenness and streak as potentials: a price is read from them, and only a change that is made is
// paid for.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "score/model.hpp"

namespace farflung::score {

/// Of a cast: L*, a*, b* and how busy a print is.
constexpr int kComponents = 4;

/// The potentials, in the symbols of Model:
///
///   Psi_p(i) = dF/dw(p, i)
///            = sum_j (spread_weight(p) spread(i, j) + 2 coverage_weight(p) coverage(i, j)) w(p, j) + linear(i)
///
///   V(i)     = dF/dg(i)
///            = 2 sum_j (evenness_weight evenness(i, j) + streak_weight streaks(i, j)) g(j)
///
/// F is quadratic, so a price is the change times the potential plus half the change's own form: exact, and its cost
/// does not grow with the number of places.
class PairField {
 public:
  static constexpr std::size_t kTile = 8;  ///< places side by side

  explicit PairField(const Model& model);

  /// Price of putting `out`, which lies in `place`, aside for `in`.
  double replace(int place, const Parts& out, const Parts& in) const;

  /// What two such changes at once cost beyond each by itself.
  double together(int a, const Parts& out_a, const Parts& in_a, int b, const Parts& out_b, const Parts& in_b) const;

  /// Price of `here`, which lies in a, and `there`, which lies in b, changing places.
  double swap(int a, int b, const Parts& here, const Parts& there) const;

  /// Twice what `parts`, which lie in `place`, add to F: summed over all places it is twice the pair sums.
  double whole(int place, const Parts& parts) const;

  /// Makes the change: adds (or, with sign -1, takes away) parts in a place.
  void add(int place, const Parts& parts, double sign);
  /// Makes the change that swap() prices.
  void apply_swap(int a, int b, const Parts& here, const Parts& there);

  bool casts_count() const { return casts_count_; }  ///< evenness or streak weighs something
  const double* potential(int print) const { return &shares_[print * stride_]; }  ///< Psi, by place
  const double* casts() const { return casts_.data(); }  ///< V, by tile, by component, by place

 private:
  struct Weights {
    double spread = 0, coverage = 0, casts = 0;
  };

  Weights weights(int a, int b) const;
  double cast_weight(int a, int b) const;
  double spread_difference(const Parts& a, const Parts& b) const;
  double coverage_difference(const Parts& a, const Parts& b) const;
  void add_shares(const Parts& parts, double sign);
  void add_cast(const Reading& cast);
  Reading cast_at(int place) const;

  const Model& model_;
  bool casts_count_ = false;
  std::size_t stride_ = 0;                                             ///< places, filled up to whole tiles
  std::vector<double> shares_;                                         ///< Psi, by print, by place
  std::vector<double> casts_;                                          ///< V, by tile, by component, by place
  std::vector<double> own_coverage_, own_casts_;                       ///< the kernels' diagonals
  Kernel cast_table_;                                                  ///< evenness and streak weighed, where it fits
  std::vector<double> spread_column_, coverage_column_, cast_column_;  ///< scratch of a change
};

}  // namespace farflung::score
