// The lattice that a setting's places lie on: equal steps along a line, and the distances that two places can have.
#pragma once

#include <vector>

#include "score/places.hpp"

namespace farflung::score {

/// Every setting's places are points of a lattice of equal steps across and down, so that all of this is read from
/// tables however many places there are.
class PlaceLattice {
 public:
  PlaceLattice() = default;
  explicit PlaceLattice(const Places& places);

  /// The place at a point of the lattice, kNone where there is none or a hole.
  int at(int across, int down) const {
    const int column = across - left_;
    const int row = down - top_;
    if (column < 0 || column >= wide_ || row < 0 || row >= high_) return kNone;
    return place_[static_cast<std::size_t>(row) * wide_ + column];
  }

  /// Calls use(k) for each of the up to three places that make three equal steps in a line with i and j: beyond i,
  /// beyond j, and half way.
  template <typename Use>
  void with_third(int i, int j, Use use) const {
    const int across_i = across_[i], down_i = down_[i], across_j = across_[j], down_j = down_[j];
    const auto found = [&](int k) {
      if (k != kNone) use(k);
    };
    found(at(2 * across_i - across_j, 2 * down_i - down_j));
    found(at(2 * across_j - across_i, 2 * down_j - down_i));
    found(midway(i, j));
  }

  /// The place half way between two, kNone where there is none.
  int midway(int i, int j) const {
    const int across = across_[i] + across_[j];
    const int down = down_[i] + down_[j];
    return across % 2 != 0 || down % 2 != 0 ? kNone : at(across / 2, down / 2);
  }

  /// Distances in order: rank 0 is the shortest.
  int rank(int i, int j) const {
    const int across = across_[i] < across_[j] ? across_[j] - across_[i] : across_[i] - across_[j];
    const int down = down_[i] < down_[j] ? down_[j] - down_[i] : down_[i] - down_[j];
    return rank_[static_cast<std::size_t>(down) * wide_ + across];
  }
  int ranks() const { return static_cast<int>(distance_.size()); }
  double distance(int rank) const { return distance_[rank]; }  ///< pitches
  double farthest() const { return farthest_; }                ///< pitches between the two places furthest apart

 private:
  void find_ranks(const Places& places);

  int left_ = 0, top_ = 0, wide_ = 0, high_ = 0;
  std::vector<int> across_, down_;  ///< by place
  std::vector<int> place_;          ///< by point of the lattice
  std::vector<int> rank_;           ///< by steps down and across
  std::vector<double> distance_;    ///< by rank
  double farthest_ = 0;
};

/// Where the copies of each print lie: by print, places.
using CopiesOfPrints = std::vector<std::vector<int>>;

/// How many three copies of one print lie in a line at equal steps.
int equal_triples(const PlaceLattice& lattice, const CopiesOfPrints& copies);

/// Pitches between the closest two copies of one print; where no print has two, as far as places can lie apart.
double closest_copies(const PlaceLattice& lattice, const CopiesOfPrints& copies);

}  // namespace farflung::score
