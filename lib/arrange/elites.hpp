// The best layouts found so far, each unlike the others, and how two of them are crossed.
#pragma once

#include <vector>

#include "arrange/chain.hpp"
#include "arrange/symmetry.hpp"

namespace farflung::arrange {

/// Layouts are told apart by F: those that a symmetry lays upon each other are one layout.
class Elites {
 public:
  Elites(const Task& task, const std::vector<Symmetry>& symmetries, int most);

  bool full() const { return static_cast<int>(elites_.size()) == most_; }
  bool enough_to_cross() const { return elites_.size() > 1; }
  /// Of the layouts held; there must be one.
  double best_F() const;

  /// Keeps a layout that no other equals in F and that is better than the worst, which it displaces. Whether it did.
  bool take(const std::vector<Held>& held, double F);

  /// Two elites drawn by lot, the second laid upon the first as well as symmetry allows: what they agree in stays, each
  /// other place holds what one of them has there as far as blocks go, and the rest is laid by lot. Kept places stay as
  /// they are. Forms follow the first.
  std::vector<Held> crossed(Rng& rng) const;

 private:
  struct Elite {
    std::vector<Held> held;
    double F = 0;
  };

  std::vector<int> kinds_of(const Elite& elite) const;
  const Symmetry& upon(const std::vector<int>& first, const std::vector<int>& second) const;

  const Task& task_;
  const std::vector<Symmetry>& symmetries_;
  int most_;
  std::vector<Elite> elites_;
};

}  // namespace farflung::arrange
