// Where runs begin that are to keep the closest two copies of a print as far apart as can be.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "arrange/apart.hpp"
#include "score/place_lattice.hpp"

namespace farflung::arrange {

/// How hard to try: exchanges a place for each distance, so many threads, and whether to go on.
struct Trying {
  double patience = 0;
  int threads = 0;
  std::function<bool()> go_on;
};

/// Finds how far apart the closest two copies can lie: from the layout as it is, from starts drawn by lot, and where
/// single prints fill a whole grid from each print on a lattice of its own. The same for the same seed, on any number
/// of threads.
class FarStarts {
 public:
  /// `task` has no clearance; `held` is the layout as it is.
  FarStarts(const Task& task, const score::Places& places, const std::vector<Held>& held, const Trying& trying,
            Seed seed);
  FarStarts(const FarStarts&) = delete;
  FarStarts& operator=(const FarStarts&) = delete;

  /// Of the furthest distance found.
  std::shared_ptr<const Clearance> clearance() const { return clearance_; }

  /// A layout that is clear, near `start` where one is found there; else one of those found, its prints with as many
  /// copies as each other in another order.
  std::vector<Held> cleared(const std::vector<Held>& start, double patience, Seed seed,
                            const std::function<bool()>& go_on) const;

 private:
  std::vector<Held> lattice(const std::vector<Held>& held) const;
  std::vector<Held> reordered(std::vector<Held> held, Rng& rng) const;

  const Task& task_;
  const score::Places& places_;
  score::PlaceLattice lattice_;
  ApartSearch search_;
  std::vector<std::vector<int>> prints_;  ///< by block
  std::vector<std::vector<Held>> found_;  ///< clear
  std::shared_ptr<const Clearance> clearance_;
};

}  // namespace farflung::arrange
