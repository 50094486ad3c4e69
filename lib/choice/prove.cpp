// Branch and bound over subsets; the bound is told in subset.hpp.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "choice/subset.hpp"

namespace farflung::choice {
namespace {

constexpr int kStepsAtRoot = 2000;
constexpr int kStepsBelow = 150;

// How each pair's price is shared out between its two items: s(i, j) is paid by i, s(i, j) + s(j, i) = pair(i, j).
class Shares {
 public:
  explicit Shares(const SubsetProblem& problem) : count_(problem.count), share_(problem.pair) {
    for (double& share : share_) share /= 2;
  }

  double at(int i, int j) const { return share_[static_cast<std::size_t>(i) * count_ + j]; }

  /// Moves shares to raise the bound for completions by `more` of the items from `first` on, which pay `price`
  /// themselves, given that some completion costs `reached`; keeps the best shares and gives their bound.
  double raise(const std::vector<double>& price, int first, int more, double reached, int steps) {
    double best_bound = -std::numeric_limits<double>::infinity();
    std::vector<double> best_share = share_;
    double stride = 1;
    int since_best = 0;
    for (int step = 0; step < steps; ++step) {
      const double bound = cheapest(price, first, more);
      if (bound > best_bound + 1e-12) {
        best_bound = bound;
        best_share = share_;
        since_best = 0;
      } else if (++since_best % 10 == 0) {
        stride *= 0.7;
      }
      if (bound >= reached || !step_uphill(first, more, stride * (reached - bound))) break;
    }
    share_ = std::move(best_share);
    return best_bound;
  }

 private:
  // The bound; leaves the items chosen in chosen_ and the pairs that each item i wants in wanted_[i].
  double cheapest(const std::vector<double>& price, int first, int more) {
    std::vector<std::pair<double, int>> pays;
    pays.reserve(count_);
    wanted_.assign(count_, {});
    std::vector<std::pair<double, int>> shares;
    for (int i = first; i < count_; ++i) {
      shares.clear();
      for (int j = first; j < count_; ++j) {
        if (j != i) shares.emplace_back(at(i, j), j);
      }
      std::nth_element(shares.begin(), shares.begin() + (more - 1), shares.end());
      double sum = price[i];
      for (int m = 0; m < more - 1; ++m) {
        sum += shares[m].first;
        wanted_[i].push_back(shares[m].second);
      }
      pays.emplace_back(sum, i);
    }
    std::nth_element(pays.begin(), pays.begin() + more, pays.end());
    chosen_.clear();
    double bound = 0;
    for (int m = 0; m < more; ++m) {
      bound += pays[m].first;
      chosen_.push_back(pays[m].second);
    }
    return bound;
  }

  // One step along the subgradient: an item that wants a pair which its partner does not want pays more of it.
  bool step_uphill(int first, int more, double rise) {
    slope_.assign(share_.size(), 0);
    for (int i : chosen_) {
      for (int j : wanted_[i]) {
        slope_[static_cast<std::size_t>(i) * count_ + j] += 1;
        slope_[static_cast<std::size_t>(j) * count_ + i] -= 1;
      }
    }
    double square = 0;
    for (double slope : slope_) square += slope * slope / 2;
    if (square == 0 || more < 2) return false;
    for (int i = first; i < count_; ++i) {
      for (int j = first; j < count_; ++j) {
        const std::size_t ij = static_cast<std::size_t>(i) * count_ + j;
        share_[ij] += rise / square * slope_[ij];
      }
    }
    return true;
  }

  int count_;
  std::vector<double> share_;
  std::vector<std::vector<int>> wanted_;
  std::vector<int> chosen_;
  std::vector<double> slope_;
};

// The search goes through the items in one order, so that those not decided on at depth k are always k, k + 1, ...:
// what an item pays at the least for its pairs can be tabled beforehand.
class Search {
 public:
  Search(const SubsetProblem& problem, std::int64_t most_branches, BestSubsets& best)
      : original_(problem), best_(best), most_branches_(most_branches) {
    order_items();
    table_shares();
  }

  Proof run() {
    price_.assign(static_cast<std::size_t>(problem_.count + 1) * problem_.count, 0);
    std::copy(problem_.single.begin(), problem_.single.end(), price_.begin());
    bound_left_ = std::numeric_limits<double>::infinity();
    open(0, problem_.take, 0);
    proof_.complete = !stopped_;
    proof_.bound = std::min(best_.held().empty() ? bound_left_ : best_.held().front().cost, bound_left_);
    return proof_;
  }

 private:
  // First the items whose price at the root says most clearly whether they belong: they settle branches early.
  void order_items() {
    const int n = original_.count;
    Shares shares(original_);
    const double reached = best_.held().empty() ? 0 : best_.held().front().cost;
    shares.raise(original_.single, 0, original_.take, reached, kStepsAtRoot);
    std::vector<double> pays(n);
    for (int i = 0; i < n; ++i) {
      std::vector<double> row;
      for (int j = 0; j < n; ++j) {
        if (j != i) row.push_back(shares.at(i, j));
      }
      std::sort(row.begin(), row.end());
      pays[i] = std::accumulate(row.begin(), row.begin() + (original_.take - 1), original_.single[i]);
    }
    std::vector<double> sorted = pays;
    std::sort(sorted.begin(), sorted.end());
    const double threshold = (sorted[original_.take - 1] + sorted[original_.take]) / 2;
    order_.resize(n);
    std::iota(order_.begin(), order_.end(), 0);
    std::stable_sort(order_.begin(), order_.end(),
                     [&](int a, int b) { return std::abs(pays[a] - threshold) > std::abs(pays[b] - threshold); });
    problem_ = original_;
    for (int i = 0; i < n; ++i) {
      problem_.single[i] = original_.single[order_[i]];
      for (int j = 0; j < n; ++j) {
        problem_.pair[static_cast<std::size_t>(i) * n + j] = original_.pair_at(order_[i], order_[j]);
      }
    }
    likely_.assign(n, false);
    if (!best_.held().empty()) {
      std::vector<bool> in(n, false);
      for (int item : best_.held().front().items) in[item] = true;
      for (int i = 0; i < n; ++i) likely_[i] = in[order_[i]];
    }
  }

  // least_[k][i][m]: the sum of item i's m smallest shares with others from k on, the shares being tuned at each depth
  // to the branch that leads to the best subset known.
  void table_shares() {
    const int n = problem_.count, take = problem_.take;
    least_.assign(static_cast<std::size_t>(n) * n * take, 0);
    Shares shares(problem_);
    std::vector<double> price = problem_.single;
    double taken_cost = 0;
    int more = take;
    const double reached = best_.held().empty() ? 0 : best_.held().front().cost;
    std::vector<double> row;
    for (int k = 0; k < n; ++k) {
      if (more > 1 && more < n - k) {
        shares.raise(price, k, more, reached - taken_cost, k == 0 ? kStepsAtRoot : kStepsBelow);
      }
      for (int i = k; i < n; ++i) {
        row.clear();
        for (int j = k; j < n; ++j) {
          if (j != i) row.push_back(shares.at(i, j));
        }
        std::sort(row.begin(), row.end());
        double sum = 0;
        for (int m = 1; m < take && m <= static_cast<int>(row.size()); ++m) {
          sum += row[m - 1];
          least_[least_index(k, i) + m] = sum;
        }
      }
      if (!likely_[k]) continue;
      taken_cost += price[k];
      --more;
      for (int i = 0; i < n; ++i) price[i] += problem_.pair_at(i, k);
    }
  }

  std::size_t least_index(int k, int i) const {
    return (static_cast<std::size_t>(k) * problem_.count + i) * problem_.take;
  }
  double* price_at(int depth) { return &price_[static_cast<std::size_t>(depth) * problem_.count]; }

  void hold(double cost) {
    if (cost > best_.worst() - kCostTolerance) return;
    PricedSubset subset;
    for (int i : taken_) subset.items.push_back(order_[i]);
    std::sort(subset.items.begin(), subset.items.end());
    subset.cost = original_.cost(subset.items);
    best_.offer(subset);
  }

  double bound(int k, int more, double cost) {
    const double* price = price_at(k);
    pays_.clear();
    for (int i = k; i < problem_.count; ++i) pays_.push_back(price[i] + least_[least_index(k, i) + more - 1]);
    if (more < static_cast<int>(pays_.size())) {
      std::nth_element(pays_.begin(), pays_.begin() + more, pays_.end());
    }
    return std::accumulate(pays_.begin(), pays_.begin() + more, cost);
  }

  void take_one(int k, double cost) {
    const double* price = price_at(k);
    for (int i = k; i < problem_.count; ++i) {
      taken_.push_back(i);
      hold(cost + price[i]);
      taken_.pop_back();
    }
  }

  void open(int k, int more, double cost) {
    if (more == 0) return hold(cost);
    if (problem_.count - k < more) return;
    const double least = bound(k, more, cost);
    if (least > best_.worst() - kCostTolerance) return;
    if (stopped_ || (most_branches_ > 0 && proof_.branches >= most_branches_)) {
      stopped_ = true;
      bound_left_ = std::min(bound_left_, least);
      return;
    }
    ++proof_.branches;
    if (more == 1) return take_one(k, cost);
    const double* price = price_at(k);
    double* next = price_at(k + 1);
    for (const bool taking : {likely_[k] == true, likely_[k] == false}) {
      if (taking) {
        for (int i = k + 1; i < problem_.count; ++i) next[i] = price[i] + problem_.pair_at(i, k);
        taken_.push_back(k);
        open(k + 1, more - 1, cost + price[k]);
        taken_.pop_back();
      } else {
        for (int i = k + 1; i < problem_.count; ++i) next[i] = price[i];
        open(k + 1, more, cost);
      }
    }
  }

  const SubsetProblem& original_;
  SubsetProblem problem_;  // its items in the order of the search
  BestSubsets& best_;
  std::int64_t most_branches_;
  std::vector<int> order_;
  std::vector<bool> likely_;
  std::vector<double> least_;
  std::vector<double> price_;
  std::vector<double> pays_;
  std::vector<int> taken_;
  double bound_left_ = 0;
  bool stopped_ = false;
  Proof proof_;
};

}  // namespace

Proof prove_best(const SubsetProblem& problem, std::int64_t most_branches, BestSubsets& best) {
  if (problem.take == 0 || problem.take == problem.count) {
    std::vector<int> all(problem.take);
    std::iota(all.begin(), all.end(), 0);
    const double cost = problem.cost(all);
    best.offer({all, cost});
    return {true, 0, cost};
  }
  return Search(problem, most_branches, best).run();
}

double bound_of(const SubsetProblem& problem, double reached) {
  if (problem.take == 0 || problem.take == problem.count) return reached;
  const int steps = std::clamp(3'000'000 / (problem.count * problem.count), 20, kStepsAtRoot);
  return Shares(problem).raise(problem.single, 0, problem.take, reached, steps);
}

}  // namespace farflung::choice
