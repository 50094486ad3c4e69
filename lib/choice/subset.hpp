// Taking k of n where every pair taken has a price: the arithmetic under `choose`.
#pragma once

#include <cstdint>
#include <vector>

#include "base/rng.hpp"

namespace farflung::choice {

/// cost(S) = sum over i in S of single[i] + sum over pairs i < j in S of pair(i, j), over all S of `take` items.
struct SubsetProblem {
  int count = 0;
  int take = 0;
  std::vector<double> single;
  std::vector<double> pair;  ///< count x count, symmetric, 0 on the diagonal

  double pair_at(int i, int j) const { return pair[static_cast<std::size_t>(i) * count + j]; }
  double cost(const std::vector<int>& subset) const;
  double subsets() const;  ///< how many there are: count choose take
};

/// Items as indices into SubsetProblem::single.
struct PricedSubset {
  std::vector<int> items;  ///< ascending
  double cost = 0;
};

/// Costs nearer than this count as equal; which of equals is held is settled by the seed, the same each time.
constexpr double kCostTolerance = 1e-11;

/// The best few subsets seen, best first, all different.
class BestSubsets {
 public:
  explicit BestSubsets(int room) : room_(room) {}

  /// True where the subset is new and good enough to be held.
  bool offer(const PricedSubset& subset);

  /// A subset must cost no more than this to be held; infinite while there is room.
  double worst() const;

  const std::vector<PricedSubset>& held() const { return held_; }

 private:
  int room_;
  std::vector<PricedSubset> held_;
};

/// Simulated annealing by exchanges, then descent from the best found. Deterministic by seed; `effort` 1 tries 2000
/// exchanges for each item in each of eight starts.
void anneal_subsets(const SubsetProblem& problem, Seed seed, double effort, BestSubsets& best);

/// How far branch and bound came.
struct Proof {
  bool complete = false;      ///< every subset was ruled out or looked at: what is held is the best there is
  std::int64_t branches = 0;  ///< branches that were opened
  double bound = 0;           ///< no subset costs less than this, complete or not
};

/// Branch and bound. Starts from what `best` holds and leaves there the best there are, exactly, unless more than
/// `most_branches` would be needed (0: however many).
///
/// The bound: let S be completed by r of the items F not yet decided on. Each pair's price is shared out between its
/// two items, pair(i, j) = s_ij + s_ji, and each item i pays its own price, those of its pairs with items taken, and
/// its shares of the r - 1 pairs cheapest for it. No completion costs less than the r items that pay least. The
/// shares are moved between the two items, step by step, for as long as that raises the bound (the Lagrangean dual of
/// Adams and Johnson's linearisation, after Caprara, Pisinger and Toth 1999, doi:10.1287/ijoc.11.2.125).
Proof prove_best(const SubsetProblem& problem, std::int64_t most_branches, BestSubsets& best);

/// The bound alone, before any branch is opened; `reached` is what some subset costs. Cheap for any size.
double bound_of(const SubsetProblem& problem, double reached);

}  // namespace farflung::choice
