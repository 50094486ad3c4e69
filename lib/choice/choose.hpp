// The prints of a bundle that work best together.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "base/rng.hpp"
#include "choice/measure.hpp"
#include "print/print.hpp"

namespace farflung::choice {

/// What to take out of a bundle. `effort` at most 1,000,000, `others` at most 1,000; beyond is a problem.
struct ChooseOptions {
  /// How many prints.
  int take = 0;
  std::vector<int> keep;  ///< prints that must be among them, as indices into the bundle's prints
  std::vector<int> drop;  ///< prints that must not
  Taste taste;
  Seed seed;
  double effort = 1;  ///< of the annealer, for choices too many to prove; above 0
  int others = 5;     ///< how many of the next best sets to tell
};

/// The help's words for what `choose` makes small; the same the README gives.
extern const char* const kMeasureInWords;

/// A set of prints and how it reads.
struct ChosenSet {
  std::vector<int> take;  ///< indices, from the lightest to the darkest
  Terms terms;
  std::vector<int> leaves, enters;  ///< what changes beside the best set; empty for the best itself
  std::vector<std::string> why;     ///< whole sentences without a full stop
};

/// One print of the best set, and what to take if it cannot be had.
struct Substitute {
  /// Both indices into the bundle's prints.
  int dropped = 0, instead = 0;
  double rise = 0;   ///< of the cost; never below 0 where the choice is proven
  std::string says;  ///< "if you drop Kelp, take Foghorn instead"
};

/// The best set, those next to it, and how far it is proven that there is none better.
struct ChooseReport {
  ChosenSet best;
  std::vector<ChosenSet> others;        ///< the next best sets, best first
  std::vector<Substitute> substitutes;  ///< one for each print taken that need not be kept, where any print is left
  bool optimal = false;       ///< proven: no set costs less than `best`, nor any not listed less than `others`
  double bound = 0;           ///< no set costs less than this
  std::int64_t branches = 0;  ///< of the proof
  double sets = 0;            ///< how many sets there are
  std::string proof;          ///< the same in words
};

/// The `take` prints of least cost (see Measure). Proven the best for every choice of up to C(30, 15) = 155,117,520
/// sets, whatever the prints; above that annealed, and proven where a proof of a second or so is enough.
/// Deterministic by seed. Problems name the option at fault.
///
///   ChooseOptions options;
///   options.take = 8;
///   Result<ChooseReport> report = choose(quilt.prints, options);
Result<ChooseReport> choose(const std::vector<print::Print>& prints, const ChooseOptions& options);

}  // namespace farflung::choice
