#include "robust_tabu.hpp"

#include <limits>
#include <utility>

#include "instances.hpp"

namespace farflung::bench {
namespace {

class Search {
 public:
  Search(const Torus& torus, const std::vector<long>& weights, Seed seed)
      : n_(torus.rows * torus.columns),
        weights_(weights),
        rng_(seed),
        print_(torus.print),
        item_(n_),
        price_(static_cast<std::size_t>(n_) * n_, 0),
        until_(static_cast<std::size_t>(n_) * n_) {
    for (int i = 0; i < n_; ++i) item_[i] = i;
    rng_.shuffle(std::span<int>(item_));
    for (int i = 0; i < n_; ++i) print_[i] = torus.print[item_[i]];
    for (int i = 0; i < n_; ++i) {
      for (int j = 0; j < n_; ++j) until_[at(i, j)] = -(n_ * static_cast<long>(i) + j);
      for (int j = i + 1; j < n_; ++j) price_[at(i, j)] = price_anew(i, j);
    }
    value_ = best_ = value_of(weights_, print_);
  }

  long best() const { return best_; }

  void step() {
    ++now_;
    int best_i = -1, best_j = -1;
    long least = std::numeric_limits<long>::max();
    bool by_age = false;
    const long aspiration = static_cast<long>(2.2 * n_ * n_);
    for (int i = 0; i < n_; ++i) {
      for (int j = i + 1; j < n_; ++j) {
        const long to_i = until_[at(i, item_[j])];
        const long to_j = until_[at(j, item_[i])];
        const bool allowed = to_i < now_ || to_j < now_;
        const bool old = to_i < now_ - aspiration && to_j < now_ - aspiration;
        const bool wins = value_ + price_[at(i, j)] < best_ || old;
        if (wins && !by_age) {
          least = std::numeric_limits<long>::max();
          by_age = true;
        }
        if ((by_age ? wins : allowed) && price_[at(i, j)] < least) {
          least = price_[at(i, j)];
          best_i = i;
          best_j = j;
        }
      }
    }
    if (best_i >= 0) exchange(best_i, best_j);
  }

 private:
  std::size_t at(int i, int j) const { return static_cast<std::size_t>(i) * n_ + j; }
  long same(int p, int q) const { return p >= 0 && p == q ? 1 : 0; }

  long price_anew(int u, int v) const {
    long price = 0;
    for (int k = 0; k < n_; ++k) {
      if (k == u || k == v) continue;
      price += (weights_[at(u, k)] - weights_[at(v, k)]) * (same(print_[v], print_[k]) - same(print_[u], print_[k]));
    }
    return 2 * price;
  }

  void exchange(int r, int s) {
    const auto tenure = [&] { return static_cast<long>(rng_.between(0.9 * n_, 1.1 * n_)); };
    until_[at(r, item_[r])] = now_ + tenure();
    until_[at(s, item_[s])] = now_ + tenure();
    value_ += price_[at(r, s)];
    if (value_ < best_) best_ = value_;
    const int in_r = print_[r], in_s = print_[s];
    if (in_r != in_s) {
      for (int u = 0; u < n_; ++u) {
        if (u == r || u == s) continue;
        for (int v = u + 1; v < n_; ++v) {
          if (v == r || v == s) continue;
          const long far = weights_[at(u, r)] - weights_[at(v, r)] - weights_[at(u, s)] + weights_[at(v, s)];
          const long met =
              same(print_[v], in_s) - same(print_[u], in_s) - same(print_[v], in_r) + same(print_[u], in_r);
          price_[at(u, v)] += 2 * far * met;
        }
      }
    }
    std::swap(print_[r], print_[s]);
    std::swap(item_[r], item_[s]);
    for (int k = 0; k < n_; ++k) {
      for (const int end : {r, s}) {
        if (k != end) price_[at(std::min(k, end), std::max(k, end))] = price_anew(std::min(k, end), std::max(k, end));
      }
    }
  }

  int n_;
  const std::vector<long>& weights_;
  Rng rng_;
  std::vector<int> print_, item_;
  std::vector<long> price_, until_;
  long now_ = 0, value_ = 0, best_ = 0;
};

}  // namespace

Reached robust_tabu(const Torus& torus, const std::vector<long>& weights, double seconds, long target, Seed seed) {
  const double start = thread_seconds();
  Search search(torus, weights, seed);
  Reached reached{search.best(), 0};
  while (reached.value > target && thread_seconds() - start < seconds) {
    search.step();
    if (search.best() >= reached.value) continue;
    reached = {search.best(), thread_seconds() - start};
  }
  return reached;
}

}  // namespace farflung::bench
