// How well a handful of prints works together: the measure that `choose` makes as small as it can.
#pragma once

#include <span>
#include <vector>

#include "print/print.hpp"

namespace farflung::choice {

/// What the quilter likes. Weights are at least 0; a weight of 0 leaves its term out.
struct Taste {
  double lively = 0.5;  ///< 0 calm: hues held together .. 1 lively: hues spread; at 1/2 hues do not count
  /// The weights of alike, uneven, hue_spread, same_scale and busy_together, in the order of Terms.
  double apart = 1;
  double values = 1;
  double hues = 2;  ///< at 1 the slider moves hardly a print in bundles of muted colours
  double scales = 0.25;
  double quiet = 0.5;
};

/// How a set of n prints reads. All means over pairs are over all n x n ordered pairs, a print with itself included.
struct Terms {
  double alike = 0;  ///< (1/n) sum over pairs of max(0, 1 - dE00/20)^2: 0 where all are told apart easily
  double uneven =
      0;  ///< 0 an even run from the lightest to the darkest of the bundle .. 2 all at one end (see Measure)
  double hue_spread = 0;     ///< mean of c c' sin(hue angle between / 2), c = min(1, C*/30): 0 one hue or greys .. 0.64
  double same_scale = 0;     ///< mean of exp(-|log2(scale/scale')|): 1 all motifs of one size
  double busy_together = 0;  ///< mean of busyness x busyness': 0 all plain .. 1 all loud
  double cost = 0;           ///< what is made small: see Measure

  friend bool operator==(const Terms&, const Terms&) = default;
};

/// Prints are told apart easily from this CIEDE2000 up.
constexpr double kToldApart = 20;

/// The cost of taking `take` prints out of a bundle,
///
///   cost = apart alike + values uneven + hues (1 - 2 lively) hue_spread + scales same_scale + quiet busy_together.
///
/// `uneven` is 3/R times the energy distance (Szekely and Rizzo 2013, doi:10.1016/j.jspi.2013.03.018) between the L* of
/// the set and a flat run over [low, high], the lightest and darkest of the bundle, R = high - low: which is 6/R times
/// the integral of the squared difference of the two distribution curves. A bundle whose values span less than 20 L* is
/// held against a run of 20 round its middle.
///
/// Every term is a sum over single prints and pairs of prints once the number taken is fixed: cost = constant + sum of
/// single(i) + sum of pair(i, j). That is what makes it possible to prove a choice the best.
class Measure {
 public:
  /// `bundle` are the prints that may be taken, as indices into `prints`.
  Measure(const std::vector<print::Print>& prints, const std::vector<int>& bundle, int take, const Taste& taste);

  /// Of any prints (by index into the list it was made of), as many as `take` or not.
  Terms terms(std::span<const int> set) const;

  double constant() const { return constant_; }
  double single(int print) const { return single_[print]; }
  double pair(int print, int other) const { return pair_[index(print, other)]; }
  double delta_e(int print, int other) const { return delta_e_[index(print, other)]; }

 private:
  std::size_t index(int print, int other) const { return static_cast<std::size_t>(print) * lab_.size() + other; }
  double from_run(double L) const;
  double hues_apart(int print, int other) const;
  double scales_alike(int print, int other) const;
  void price(int take);

  Taste taste_;
  double low_ = 0, high_ = 0;
  std::vector<colour::Lab> lab_;
  std::vector<double> log_scale_;  ///< log2 of inches; NaN where it is not known
  std::vector<double> busyness_;
  std::vector<double> delta_e_;
  double constant_ = 0;
  std::vector<double> single_;
  std::vector<double> pair_;
};

}  // namespace farflung::choice
