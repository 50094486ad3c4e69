// How many copies of each print lie near each place: what tells whether a move brings two copies too near together.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "score/model.hpp"

namespace farflung::arrange {

/// By place, in order: the places nearer to it than some distance.
using NearPlaces = std::vector<std::vector<int>>;

/// How far two different places lie apart: 0 the shortest distance there is, then in order. The same both ways.
using RankOfDistance = std::function<int(int, int)>;

/// The places of a lower rank than `rank` from each of so many.
NearPlaces nearer_than(int places, int rank, const RankOfDistance& rank_of);

/// By block: the prints that count as its copies.
std::vector<std::vector<int>> prints_of_blocks(const score::Model& model);

/// That no two copies of a print may lie in places near each other.
struct Clearance {
  NearPlaces near;
  std::vector<std::vector<int>> prints;  ///< by block: those that count as its copies
  int rank = 0;                          ///< of the distance: near is what is nearer
};

/// Counts kept up as blocks come and go. A conflict is a print of which two copies lie too near together: each such
/// pair of copies is one. A question costs a few look-ups a print; a change goes over the places near by.
class NearCopies {
 public:
  /// Nothing lies anywhere yet.
  NearCopies(NearPlaces near, int prints);

  int places() const { return static_cast<int>(near_.size()); }
  /// Whether two places lie nearer together than copies may.
  bool near(int a, int b) const;
  const std::vector<int>& near_to(int place) const { return near_[place]; }

  /// How many copies of a print lie near a place.
  int count(int print, int place) const { return counts_[index(print, place)]; }
  std::span<const int> counts(int print) const { return {&counts_[index(print, 0)], near_.size()}; }

  /// Conflicts that prints have, or would have, in a place.
  int conflicts(std::span<const int> prints, int place) const;

  /// Prints come to a place (sign 1) or leave it (-1).
  void change(std::span<const int> prints, int place, int sign);

  /// Where nothing is in conflict: whether that stays so when what lies in two places is exchanged, or what lies in a
  /// place makes way for other prints.
  bool stays_clear(std::span<const int> in_a, int a, std::span<const int> in_b, int b) const;
  bool stays_clear(std::span<const int> coming, int place) const { return conflicts(coming, place) == 0; }

 private:
  std::size_t index(int print, int place) const { return static_cast<std::size_t>(print) * near_.size() + place; }

  NearPlaces near_;
  std::vector<int> counts_;  ///< by print, by place
};

}  // namespace farflung::arrange
