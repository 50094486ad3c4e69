// How ill every print fits every patch, under a light that is learnt from the prints themselves. Internal to wall.
#pragma once

#include <functional>
#include <vector>

#include "wall/evidence.hpp"

namespace farflung::wall {

/// The misfit of each print in each patch of each cell, under one light.
class Misfits {
 public:
  Misfits(const Evidence& evidence, const Book& book, const Light& light);
  double at(int cell, int patch, int print) const {
    return table_[(static_cast<std::size_t>(cell) * patches_ + patch) * prints_ + print];
  }

 private:
  int patches_, prints_;
  std::vector<double> table_;
};

/// Somebody's opinion of the wall: what it takes each patch to be, and how ill all that fits.
struct Opinion {
  std::vector<Light::Sample> samples;
  double misfit = 0;
};

/// Turns between the light and what the patches are under it until neither changes: `opinion` says what they are; the
/// last time, with `last` true, it may say that something is nothing it knows.
/// `start`: what they are taken for at first; none: nothing is known but the mean of all.
struct Settled {
  Misfits misfits;
  Opinion opinion;
  double worth = 0;  ///< less is better: of all patches, the light's own uncertainty counted
};
/// Deterministic. `opinion` is asked six times, or nine without a start; `mean_of_prints` is what all that
/// hangs there is expected to be.
Settled settled(const Evidence& evidence, const Book& book, const Look& mean_of_prints,
                const std::vector<Light::Sample>& start,
                const std::function<Opinion(const Misfits&, bool last)>& opinion);

/// A photograph's grid and where its box is seen.
struct Framed {
  Grid grid;
  photo::Corners corners{};
  int cards = 0;  ///< by how many printed corner cards; 0: the corners were given, or the blocks' outline found
};

/// One for each gap between blocks that is worth trying, or of a top for each seam allowance that may show round it:
/// none is known before the blocks are looked at. Corners as given or found. Problems: no such cells, nothing that
/// stands out from the wall.
Result<std::vector<Framed>> framings(const photo::Picture& photograph, const quilt::Quilt& quilt,
                                     const setting::Plan& plan, const ReadOptions& options);

}  // namespace farflung::wall
