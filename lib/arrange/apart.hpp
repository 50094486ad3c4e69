// Layouts whose closest two copies of a print lie as far apart as can be found: the distance is raised step by step.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "arrange/chain.hpp"
#include "arrange/near_copies.hpp"

namespace farflung::arrange {

/// A layout, and the rank of the distance between its closest two copies: every two copies of a print lie at least so
/// far apart. `ranks` where no print lies in two places.
struct Apart {
  std::vector<Held> held;
  int rank = 0;
};

/// Whether no two copies of a print can lie nearer than a distance is a colouring of the places, of so many places a
/// print, in which near ones differ. It is sought for one distance after another by tabu search as for colourings
/// (A. Hertz and D. de Werra, Computing 39 (1987) 345-351, doi:10.1007/BF02239976), whose step here exchanges two
/// blocks, so that every print keeps its copies: the best exchange of a block that is in conflict that brings no print
/// back to where it left lately. Where that finds none for half of the patience, annealing has the other half: layouts
/// without any room to spare are regular as crystals are, and set only as it cools slowly. Kept places stay as they
/// are, blocks stay within their pool, spares can come in, and a form goes with its block.
class ApartSearch {
 public:
  ApartSearch(const Task& task, RankOfDistance rank_of, int ranks);

  /// The rank of the closest two copies of a layout.
  int closest(const std::vector<Held>& held) const;

  /// Raises the distance from where `start` has it, until `patience` exchanges a place were priced for one distance in
  /// vain, or two kept copies lie so near. Never nearer than the start.
  Apart raised(std::vector<Held> start, double patience, Seed seed, const std::function<bool()>& go_on) const;

  /// Moves blocks until no two copies lie nearer than the distance of a rank; what `start` was where that is not found.
  Apart at_least(std::vector<Held> start, int rank, double patience, Seed seed,
                 const std::function<bool()>& go_on) const;

 private:
  const Task& task_;
  RankOfDistance rank_of_;
  int ranks_ = 0;
  std::vector<std::vector<int>> prints_;  ///< by block
};

}  // namespace farflung::arrange
