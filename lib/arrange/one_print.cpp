#include "arrange/one_print.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "score/wide.hpp"

namespace farflung::arrange {
namespace {

using Unit = std::int32_t;

constexpr Unit kMost = 1 << 29;  // no potential is larger; a place that may take no copy looks this much worse
constexpr int kClockEvery = 256;

FARFLUNG_WIDE Unit least_difference(const Unit* entering, const Unit* near, int count) {
  Unit least = std::numeric_limits<Unit>::max();
  for (int b = 0; b < count; ++b) least = std::min(least, entering[b] - near[b]);
  return least;
}

FARFLUNG_WIDE void move_copy(Unit* potential, const Unit* from, const Unit* to, int count) {
  for (int i = 0; i < count; ++i) potential[i] += to[i] - from[i];
}

/// The places of the copies, with what a copy in each place would weigh.
struct Copies {
  std::vector<int> places;
  std::vector<char> full;       ///< by place
  std::vector<Unit> potential;  ///< by place: the weights to all copies
  std::int64_t sum = 0;         ///< over pairs of copies
};

class Search {
 public:
  Search(const std::vector<Unit>& weights, int n, Copies copies, Seed seed)
      : weights_(weights), n_(n), copies_(std::move(copies)), rng_(seed), until_(n, 0), entering_(n) {
    best_ = copies_.places;
    least_ = copies_.sum;
    stay_ = static_cast<int>(std::min(copies_.places.size(), n - copies_.places.size()));
  }

  /// Whether the step led to a layout better than all before.
  bool step() {
    ++now_;
    for (int b = 0; b < n_; ++b) entering_[b] = copies_.potential[b] + (copies_.full[b] != 0 || tabu(b) ? kMost : 0);
    Unit least = kMost / 2;
    int leaving = kNone;
    for (int k = 0; k < static_cast<int>(copies_.places.size()); ++k) {
      const int a = copies_.places[k];
      if (tabu(a)) continue;
      const Unit change = least_difference(entering_.data(), row(a), n_) - copies_.potential[a];
      if (change > least || (change == least && rng_.below(2) == 0)) continue;
      least = change;
      leaving = k;
    }
    if (leaving == kNone) return false;
    move(leaving, least);
    if (copies_.sum >= least_) return false;
    least_ = copies_.sum;
    best_ = copies_.places;
    return true;
  }

  const std::vector<int>& best() const { return best_; }

 private:
  const Unit* row(int a) const { return &weights_[static_cast<std::size_t>(a) * n_]; }
  bool tabu(int place) const { return until_[place] > now_; }
  int drawn(int least) { return least + static_cast<int>(rng_.below(static_cast<std::uint32_t>(least + 2))); }

  void move(int leaving, Unit change) {
    const int a = copies_.places[leaving];
    int to = kNone;
    std::uint32_t ties = 0;
    for (int b = 0; b < n_; ++b) {
      if (entering_[b] - row(a)[b] - copies_.potential[a] != change) continue;
      if (rng_.below(++ties) == 0) to = b;
    }
    copies_.places[leaving] = to;
    copies_.full[a] = 0;
    copies_.full[to] = 1;
    copies_.sum += change;
    move_copy(copies_.potential.data(), row(a), row(to), n_);
    until_[a] = now_ + 1 + drawn(3 * stay_ / 10);
    until_[to] = now_ + 1 + drawn(3 * stay_ / 20);
  }

  const std::vector<Unit>& weights_;
  int n_;
  Copies copies_;
  Rng rng_;
  std::vector<std::int64_t> until_;  ///< by place: tabu before this step
  std::vector<Unit> entering_;       ///< by place: what a copy that comes in would weigh, before another leaves
  std::int64_t now_ = 0, least_ = 0;
  std::vector<int> best_;
  int stay_ = 0;
};

bool is_copy(const Task& task, const Held& held) { return task.model->pieces[held.block].prints.front() != kNone; }

}  // namespace

bool is_one_print(const Task& task) {
  const score::Model& model = *task.model;
  const bool only_spread = model.coverage.places() == 0 && model.evenness.places() == 0 &&
                           model.streaks.places() == 0 && model.meetings == nullptr && model.linear.empty();
  const bool all_free = task.freedom.pools.size() == 1 && task.freedom.decks.empty() &&
                        static_cast<int>(task.freedom.pools[0].places.size()) == model.places &&
                        task.freedom.pools[0].blocks.size() == model.pieces.size();
  return only_spread && all_free && model.prints == 1 && model.forms.size() == 1 &&
         static_cast<int>(model.pieces.size()) == model.places && model.places <= score::Kernel::kDense;
}

OnePrint::OnePrint(const Task& task) : task_(task), n_(task.model->places) {
  const score::Kernel& kernel = task.model->spread;
  bool whole = true;
  double largest = 0;
  for (int i = 0; i < n_; ++i) {
    double sum = 0;
    for (int j = 0; j < n_; ++j) {
      const double weight = kernel.at(i, j);
      sum += std::abs(weight);
      whole &= weight == std::floor(weight);
    }
    largest = std::max(largest, sum);
  }
  // Half of the room is left for what rounding adds and for differences.
  constexpr Unit kRoom = kMost / 4;
  const double scale = (whole && largest < kRoom) || largest == 0 ? 1 : kRoom / largest;
  for (int i = 0; i < n_; ++i) {
    for (int j = 0; j < n_; ++j) weights_.push_back(static_cast<Unit>(std::lround(scale * kernel.at(i, j))));
  }
}

std::vector<Held> OnePrint::improved(const std::vector<Held>& start, std::int64_t patience, Seed seed,
                                     const std::function<bool()>& go_on) const {
  Copies copies;
  copies.full.assign(n_, 0);
  copies.potential.assign(n_, 0);
  std::vector<Held> of_copies, blanks;
  for (int i = 0; i < n_; ++i) {
    (is_copy(task_, start[i]) ? of_copies : blanks).push_back(start[i]);
    if (!is_copy(task_, start[i])) continue;
    copies.places.push_back(i);
    copies.full[i] = 1;
    for (int j = 0; j < n_; ++j) copies.potential[j] += weights_[static_cast<std::size_t>(i) * n_ + j];
  }
  for (const int i : copies.places) copies.sum += copies.potential[i];
  copies.sum /= 2;
  if (of_copies.empty() || blanks.empty()) return start;

  Search search(weights_, n_, copies, seed);
  std::int64_t waited = 0;
  for (std::int64_t step = 0; waited < patience; ++step) {
    if (step % kClockEvery == 0 && !go_on()) break;
    waited = search.step() ? 0 : waited + 1;
  }
  std::vector<char> full(n_, 0);
  for (const int i : search.best()) full[i] = 1;
  std::vector<Held> held;
  held.reserve(full.size());
  std::size_t copy = 0, blank = 0;
  for (int i = 0; i < n_; ++i) held.push_back(full[i] != 0 ? of_copies[copy++] : blanks[blank++]);
  return held;
}

}  // namespace farflung::arrange
