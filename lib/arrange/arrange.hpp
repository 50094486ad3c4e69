// Which block goes where: simulated annealing on the score, touch first.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "base/result.hpp"
#include "base/rng.hpp"
#include "makeup/cuts.hpp"
#include "quilt/quilt.hpp"
#include "score/terms.hpp"
#include "score/touch_bound.hpp"

namespace farflung::arrange {

/// How far the work is and how the best of its runs stands now.
struct Progress {
  double done = 0;  ///< 0..1
  int touches = 0;
  double F = 0;  ///< where prints are dealt: of that run's quilt as it was measured last, twenty times a run

  /// The quilt of that score. May be called while this is told, not later; none where the run that tells is not the
  /// best.
  std::function<quilt::Quilt()> laid;
};

/// Left as they are: blocks stay as they are dealt, the usual effort, all cores.
struct Options {
  enum class Blocks {
    sewn,  ///< blocks are as they are: only places and turns change
    open,  ///< nothing is cut yet: prints are dealt to slots anew, sought together with the places
  };

  Seed seed;
  double effort = 1;  ///< how much work: 2 takes twice as long; > 0
  Blocks blocks = Blocks::sewn;
  std::optional<double> seconds;  ///< of wall clock, in place of effort; then the answer depends on the machine
  int threads = 0;                ///< 0: one for each core; the answer does not depend on it
  std::vector<int> most;          ///< open: by print, the slots it has cloth for; empty: enough for all
  makeup::HalfSquares halves;     ///< open: how many triangles are dealt together

  /// Called from the runs' threads, one call at a time; false stops the run and nothing is reported.
  std::function<bool(const Progress&)> progress;

  /// What is wrong: an effort not above 0 or beyond 1,000,000, seconds not above 0. arrange() asks it first.
  Problems check() const;
};

/// The layout found, and its score beside that of the one given.
struct Report {
  quilt::Quilt quilt;   ///< the same quilt with its new layout, and where blocks are open with its new make-up
  score::Score before;  ///< as it lay; all 0 where no cell held a block
  score::Score after;
  score::TouchBound bound;  ///< where touches are left: how few any layout can have, and what forces them
  bool stopped = false;     ///< progress said so: `quilt` is as it was
};

/// The best layout that the effort finds, never worse in (touch, F) than the one given: with sewn blocks it is kept
/// where nothing better turns up. Kept cells keep their block and turn; cells of a pattern's own hold that pattern;
/// turns are those that each block may take; holes stay holes. An empty layout is first filled in order. A fixed number
/// of runs shares all cores and the best is taken: same quilt, same options, same bytes. Up to some hundreds of cells
/// the runs exchange their layouts between temperatures (tempering.hpp). Open blocks are dealt and laid together for a
/// quarter of the effort; the rest lays them as they are then. Where the closest two copies are a goal they are brought
/// as far apart as is found, before all else but touches and rules.
///
///   Result<Report> report = arrange(quilt, {.seed = {7}});
Result<Report> arrange(const quilt::Quilt& quilt, const Options& options);

/// The layout with every cell filled in order, as far as blocks of the right pattern go, where no cell holds a block
/// yet; else as it is.
setting::Arrangement filled(const quilt::Quilt& quilt);

}  // namespace farflung::arrange
