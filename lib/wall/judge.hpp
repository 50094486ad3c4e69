// How ill every print fits every patch, under a light that is learnt from the prints themselves. Internal to wall.
#pragma once

#include <functional>
#include <optional>
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
Settled settled(const Evidence& evidence, const Book& book, const Look& mean_of_prints,
                const std::vector<Light::Sample>& start,
                const std::function<Opinion(const Misfits&, bool last)>& opinion);

/// The corners given, or those found; for the top, of the box about its cells.
std::optional<photo::Corners> corners_of(const photo::Picture& photograph, const quilt::Quilt& quilt,
                                         const setting::Plan& plan, const Grid& grid, const ReadOptions& options);

/// Gaps between blocks that are tried where they lie apart, inches.
std::vector<double> gaps_of(Laid laid);

}  // namespace farflung::wall
