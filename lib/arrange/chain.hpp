// One run of simulated annealing: Kirkpatrick, Gelatt and Vecchi 1983, doi:10.1126/science.220.4598.671.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "arrange/freedom.hpp"
#include "arrange/moves.hpp"
#include "arrange/near_copies.hpp"
#include "base/rng.hpp"
#include "makeup/balance.hpp"
#include "score/pricer.hpp"

namespace farflung::arrange {

/// What is to be laid: the numbers, what may move, where prints may be dealt anew how well they mix, and how near
/// copies may not come: of layouts that have them so far apart no run makes one that has not.
struct Task {
  const score::Model* model = nullptr;
  Freedom freedom;
  std::optional<makeup::Balance> balance;
  std::shared_ptr<const Clearance>
      clearance;  ///< none: copies may lie as near as they like; not where prints are dealt
};

/// How hot a run starts and ends, and what a touch costs in it: all from prices sampled on the instance itself.
struct Heat {
  /// Temperatures, in units of F; they fall by equal factors from the first to the last.
  double first = 0, last = 0;
  double freezing = 0;  ///< about where a run's layouts stop changing as a whole
  score::TouchPrice touch;
  MakeUpPrice make_up;
};

/// What a run found.
struct Found {
  std::vector<Held> held;            ///< by place
  std::vector<score::Piece> pieces;  ///< by block: as they are dealt
};

/// A start drawn by lot: every free place holds a block of its pool in a form that it may take.
std::vector<Held> random_start(const Task& task, std::vector<Held> held, Rng& rng);

/// Samples prices of random moves from `start`, a random one.
Heat sample_heat(const Task& task, const std::vector<Held>& start, Seed seed);

/// How a run stands, against where it began.
struct Standing {
  double done = 0;  ///< 0..1
  /// (touch, F) now less what they were at the start.
  score::Price change;
  std::function<Found()> found;  ///< what it holds at the moment: may be called while this is told, not later
};

/// Told now and then how a run stands; false stops it.
using Watch = std::function<bool(const Standing&)>;

/// How long a run lasts: a number of proposals, or where `clock` is given as long as it says (0..1, told to it as
/// done).
struct Work {
  std::int64_t proposals = 0;
  std::function<double()> clock;
};

/// Anneals from `start`, then goes down to where no swap, turn or replacement betters (touch, F).
Found anneal(const Task& task, std::vector<Held> start, const Heat& heat, const Work& work, Seed seed,
             const Watch& watch);

/// Only goes down.
Found descend(const Task& task, std::vector<Held> start, const Heat& heat, Seed seed, const Watch& watch);

}  // namespace farflung::arrange
