// The numbers of a score, and the means that each is measured against.
#pragma once

namespace farflung::score {

/// Scales of the windows, in pitches.
inline constexpr double kCoverageScales[] = {2, 4};
inline constexpr double kEvennessScales[] = {1, 2, 4};

/// Prints closer than this (dE00) read alike.
inline constexpr double kAlike = 10;

/// max(0, 1 - dE00 / 10)^2.
constexpr double likeness_of(double delta_e) {
  const double left = 1 - delta_e / kAlike;
  return left > 0 ? left * left : 0;
}

/// max(0, 1 - |dL*| / 8): values that merge.
constexpr double merging_of(double delta_L) {
  const double left = 1 - (delta_L < 0 ? -delta_L : delta_L) / 8;
  return left > 0 ? left : 0;
}

/// The terms as the layout has them. Raw: spread alone is divided by its mean already. Lengths in pitches.
struct Terms {
  int touches = 0;          ///< pairs of patches of one print that share a seam
  double touch_length = 0;  ///< their seams
  int corners = 0;          ///< pairs of patches of one print that share a point only
  /// Mean over prints of the sum over pairs of copies of share x share / d^2, each over what it is in a mean shuffle.
  double spread = 0;
  /// Sum over prints, mean over windows and scales, of (share in the window - share of the quilt)^2 / share of the
  /// quilt.
  double coverage = 0;
  /// Mean over windows and scales of the squared mean cast in the window, a cast being a Reading less the quilt's.
  double evenness = 0;
  /// Mean over rows, columns and diagonals of places x squared mean cast.
  double streak = 0;
  /// Seam between different prints, each pitch times likeness_of; contrast likewise by merging_of.
  double likeness = 0;
  double gradation = 0;  ///< worked out only where it is asked for
  double contrast = 0;
  int lines = 0;       ///< three copies of a print in a line at equal steps; worked out only where it is asked for
  double closest = 0;  ///< pitches between the closest two copies of a print; likewise
  int unnested = 0;    ///< seam ends that meet and do not nest; likewise
};

/// The exact means of the raw terms over all shuffles; likeness with 1 for every pair under dE00 10.
struct ShuffleMeans {
  double touches = 0;
  double touch_length = 0;
  double corners = 0;
  double coverage = 0;
  double evenness = 0;
  double streak = 0;
  double likeness = 0;
  double gradation = 0;
  double contrast = 0;
  double ends = 0;  ///< seam ends that meet and could nest
};

/// Whether a term has such a mean, beyond rounding: else it is the same in every layout and counts nothing.
constexpr bool tells(double mean) { return mean > 1e-12; }

/// Touch first; then what else is asked for, weighed: less is better in all.
struct Score {
  Terms terms;
  double F = 0;
  int broken = 0;  ///< seam ends that do not nest, where the quilt has that as a rule
};

/// Whether `a` is better than `b`: fewer touches, then shorter ones, then fewer broken rules, then the lesser F.
/// Differences that rounding could have made are ties.
bool better(const Score& a, const Score& b);

}  // namespace farflung::score
