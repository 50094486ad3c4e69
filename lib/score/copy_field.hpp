// Copies in a line at equal steps, and the closest two of all: terms that are no pair sums, priced all the same.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "score/model.hpp"

namespace farflung::score {

/// Keeps, for every print and place, with how many pairs of its copies a copy there would make three equal steps in a
/// line; and how many pairs of copies lie at each distance. A price of the first is a few look-ups a print; of the
/// second it goes over the copies of the prints that move. Both exact, in whole numbers.
class CopyField {
 public:
  /// What a place holds before and after a change: shares of prints, of which only the prints matter here.
  struct Change {
    int place = kNone;  ///< kNone: nothing changes
    std::span<const Share> was, is;
  };

  explicit CopyField(const Model& model);

  bool empty() const { return lines_weight_ == 0 && closest_weight_ == 0; }

  /// What F changes by when all of these do, each another place.
  double cost(std::span<const Change> changes) const;
  /// Makes the changes: later prices and whole() count them.
  void apply(std::span<const Change> changes);

  double cost(const Change& a, const Change& b) const { return cost(std::array{a, b}); }
  void apply(const Change& a, const Change& b) { apply(std::array{a, b}); }

  /// The terms' part of F.
  double whole() const { return lines_weight_ * triples_ - closest_weight_ * distance_at(closest_); }

 private:
  /// A copy of a print that comes to a place (sign 1) or leaves it.
  struct Flip {
    int print = 0, place = 0, sign = 0;
  };

  static void add_flips(const Change& change, std::vector<Flip>& flips);
  std::size_t index(int print, int place) const { return static_cast<std::size_t>(print) * places_ + place; }
  int triples_with(const Flip& flip, std::span<const Flip> before) const;
  int closest_after(std::span<const Flip> flips) const;
  int closest_from(int rank) const;
  double distance_at(int rank) const;
  void make(const Flip& flip);

  double lines_weight_ = 0, closest_weight_ = 0;
  const PlaceLattice* lattice_ = nullptr;
  int places_ = 0;
  std::vector<char> held_;                ///< by print, place
  std::vector<int> thirds_;               ///< by print, place: pairs of copies that a copy there makes a triple with
  std::vector<std::vector<int>> copies_;  ///< by print: places
  std::vector<int> pairs_at_;             ///< by rank of distance
  int triples_ = 0;
  int closest_ = 0;  ///< the lowest rank that a pair has; ranks() where there is no pair
};

}  // namespace farflung::score
