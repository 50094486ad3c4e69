#include "choice/subset.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace farflung::choice {
namespace {

bool better(const PricedSubset& a, const PricedSubset& b) {
  if (std::abs(a.cost - b.cost) > kCostTolerance) return a.cost < b.cost;
  return a.items < b.items;
}

// A subset with, for every item, its own price and those of its pairs with the items taken.
class Walk {
 public:
  Walk(const SubsetProblem& problem, const std::vector<int>& taken) : problem_(problem), price_(problem.single) {
    std::vector<bool> is_taken(problem.count, false);
    for (int i : taken) is_taken[i] = true;
    for (int i = 0; i < problem.count; ++i) (is_taken[i] ? taken_ : left_).push_back(i);
    for (int i = 0; i < problem.count; ++i) {
      for (int j : taken_) price_[i] += problem.pair_at(i, j);
    }
    cost_ = problem.cost(taken_);
  }

  int taken_count() const { return static_cast<int>(taken_.size()); }
  int left_count() const { return static_cast<int>(left_.size()); }
  double cost() const { return cost_; }

  /// What the cost would rise by, were the a-th item taken given for the b-th item left.
  double rise(int a, int b) const {
    const int out = taken_[a], in = left_[b];
    return price_[in] - problem_.pair_at(in, out) - price_[out];
  }

  void exchange(int a, int b) {
    cost_ += rise(a, b);
    const int out = taken_[a], in = left_[b];
    for (int i = 0; i < problem_.count; ++i) price_[i] += problem_.pair_at(i, in) - problem_.pair_at(i, out);
    std::swap(taken_[a], left_[b]);
  }

  PricedSubset subset() const {
    PricedSubset result{taken_, 0};
    std::sort(result.items.begin(), result.items.end());
    result.cost = problem_.cost(result.items);
    return result;
  }

 private:
  const SubsetProblem& problem_;
  std::vector<int> taken_, left_;
  std::vector<double> price_;
  double cost_ = 0;
};

void anneal(Walk& walk, Rng& rng, std::int64_t tries, BestSubsets& best) {
  double warm = 0;
  for (int a = 0; a < walk.taken_count(); ++a) {
    for (int b = 0; b < walk.left_count(); ++b) warm += std::abs(walk.rise(a, b));
  }
  warm = std::max(1e-9, warm / (walk.taken_count() * walk.left_count()));
  for (std::int64_t i = 0; i < tries; ++i) {
    const double done = static_cast<double>(i) / static_cast<double>(tries);
    const double temperature = warm * std::pow(1e-3, done);
    const int a = static_cast<int>(rng.below(walk.taken_count()));
    const int b = static_cast<int>(rng.below(walk.left_count()));
    const double rise = walk.rise(a, b);
    const double u = rng.uniform();
    if (rise > 0 && u >= std::exp(-rise / temperature)) continue;
    walk.exchange(a, b);
    if (walk.cost() < best.worst()) best.offer(walk.subset());
  }
}

// Looks at every exchange from every subset held, until none is left that would be held too.
void settle(const SubsetProblem& problem, BestSubsets& best) {
  std::vector<std::vector<int>> looked_at;
  for (bool changed = true; changed;) {
    changed = false;
    const std::vector<PricedSubset> held = best.held();
    for (const PricedSubset& from : held) {
      if (std::find(looked_at.begin(), looked_at.end(), from.items) != looked_at.end()) continue;
      looked_at.push_back(from.items);
      const Walk walk(problem, from.items);
      for (int a = 0; a < walk.taken_count(); ++a) {
        for (int b = 0; b < walk.left_count(); ++b) {
          if (walk.cost() + walk.rise(a, b) > best.worst()) continue;
          Walk there = walk;
          there.exchange(a, b);
          changed = best.offer(there.subset()) || changed;
        }
      }
    }
  }
}

}  // namespace

double SubsetProblem::cost(const std::vector<int>& subset) const {
  double sum = 0;
  for (std::size_t a = 0; a < subset.size(); ++a) {
    sum += single[subset[a]];
    for (std::size_t b = 0; b < a; ++b) sum += pair_at(subset[a], subset[b]);
  }
  return sum;
}

double SubsetProblem::subsets() const {
  double result = 1;
  for (int i = 1; i <= std::min(take, count - take); ++i) result *= static_cast<double>(count - i + 1) / i;
  return std::round(result);
}

bool BestSubsets::offer(const PricedSubset& subset) {
  for (const PricedSubset& other : held_) {
    if (other.items == subset.items) return false;
  }
  const auto place = std::upper_bound(held_.begin(), held_.end(), subset, better);
  if (place == held_.end() && static_cast<int>(held_.size()) == room_) return false;
  held_.insert(place, subset);
  if (static_cast<int>(held_.size()) > room_) held_.pop_back();
  return true;
}

double BestSubsets::worst() const {
  if (static_cast<int>(held_.size()) < room_) return std::numeric_limits<double>::infinity();
  return held_.back().cost;
}

void anneal_subsets(const SubsetProblem& problem, Seed seed, double effort, BestSubsets& best) {
  constexpr int kStarts = 8;
  std::vector<int> order(problem.count);
  for (int i = 0; i < problem.count; ++i) order[i] = i;
  if (problem.take == 0 || problem.take == problem.count) {
    order.resize(problem.take);
    best.offer({order, problem.cost(order)});
    return;
  }
  const auto tries = static_cast<std::int64_t>(std::max(1.0, effort * 2000 * problem.count));
  for (int start = 0; start < kStarts; ++start) {
    Rng rng(derived(seed, start));
    rng.shuffle(std::span<int>(order));
    Walk walk(problem, {order.begin(), order.begin() + problem.take});
    anneal(walk, rng, tries, best);
  }
  settle(problem, best);
}

}  // namespace farflung::choice
