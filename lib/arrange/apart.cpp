#include "arrange/apart.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace farflung::arrange {
namespace {

constexpr int kMostTried = 12;  // blocks in conflict that a step tries with every partner
constexpr int kAskEvery = 4096;

/// Blocks in berths: the places, and beyond them the spares, which are near to nothing.
class Colouring {
 public:
  Colouring(const Task& task, const std::vector<std::vector<int>>& prints, const std::vector<Held>& start,
            NearPlaces near, Seed seed)
      : task_(task), prints_(prints), places_(static_cast<int>(start.size())), held_(start), rng_(seed) {
    find_berths();
    near.resize(held_.size());
    int most = 0;
    for (const std::vector<int>& of_block : prints) {
      for (const int print : of_block) most = std::max(most, print + 1);
    }
    copies_.emplace(std::move(near), most);
    until_.assign(static_cast<std::size_t>(most) * held_.size(), 0);
    for (int berth = 0; berth < berths(); ++berth) copies_->change(prints_in(berth), berth, 1);
    own_.resize(held_.size());
    where_.assign(held_.size(), kNone);
    for (int berth = 0; berth < berths(); ++berth) look(berth);
    coming_.resize(most);
    is_near_.assign(held_.size(), 0);
  }

  /// Twice the conflicts.
  int conflicts() const { return sum_; }
  bool can_move() const { return !in_conflict_.empty(); }

  /// Two kept copies of a print lie too near together: nothing resolves that.
  bool is_stuck() const {
    for (int a = 0; a < places_; ++a) {
      if (pool_[a] != kNone) continue;
      for (const int b : copies_->near_to(a)) {
        if (pool_[b] == kNone && in_common(a, b) > 0) return true;
      }
    }
    return false;
  }

  std::vector<Held> layout() const { return {held_.begin(), held_.begin() + places_}; }

  /// Proposes exchanges by lot and makes those that Metropolis' rule accepts while it cools, until nothing is in
  /// conflict or `go_on`, asked now and then, says false.
  void cool(std::int64_t proposals, const std::function<bool()>& go_on) {
    constexpr double kFirst = 0.5, kLast = 0.08;  // conflicts: between them a layout sets or not
    std::vector<int> movable;
    for (const std::vector<int>& pool : berths_of_pool_) movable.insert(movable.end(), pool.begin(), pool.end());
    if (movable.empty()) return;
    double temperature = kFirst;
    for (std::int64_t k = 0; k < proposals && sum_ > 0; ++k) {
      if (k % kAskEvery == 0) {
        if (!go_on()) return;
        temperature = kFirst * std::pow(kLast / kFirst, static_cast<double>(k) / static_cast<double>(proposals));
      }
      const int a = movable[rng_.below(static_cast<std::uint32_t>(movable.size()))];
      const std::vector<int>& partners = berths_of_pool_[pool_[a]];
      const int b = partners[rng_.below(static_cast<std::uint32_t>(partners.size()))];
      if (kind_in(a) != kind_in(b) && change_of(a, b) < temperature * deviate()) exchange(a, b);
    }
  }

  /// Makes the best exchange that is not tabu; how many were priced.
  std::int64_t step(int least_before) {
    ++now_;
    Best best;
    best.bar = least_before;
    std::int64_t priced = 0;
    const int count = static_cast<int>(in_conflict_.size());
    for (int k = 0; k < std::min(count, kMostTried); ++k) {
      if (count > kMostTried) {
        const int other = k + static_cast<int>(rng_.below(static_cast<std::uint32_t>(count - k)));
        std::swap(in_conflict_[k], in_conflict_[other]);
        where_[in_conflict_[k]] = k;
        where_[in_conflict_[other]] = other;
      }
      priced += try_all(in_conflict_[k], best);
    }
    if (best.a != kNone) exchange(best.a, best.b);
    return std::max<std::int64_t>(1, priced);
  }

 private:
  struct Best {
    int change = std::numeric_limits<int>::max();
    int a = kNone, b = kNone;
    std::uint32_t ties = 0;
    int bar = 0;  ///< a change that leads below this many conflicts is never tabu
  };

  int berths() const { return static_cast<int>(held_.size()); }
  std::span<const int> prints_in(int berth) const { return prints_[held_[berth].block]; }
  int kind_in(int berth) const { return task_.freedom.kind[held_[berth].block]; }
  std::int64_t& until(int print, int berth) { return until_[static_cast<std::size_t>(print) * held_.size() + berth]; }

  void find_berths() {
    std::vector<bool> lies(task_.freedom.forms.size(), false);
    for (const Held& held : held_) lies[held.block] = true;
    pool_ = task_.freedom.pool_of_place;
    for (const Pool& pool : task_.freedom.pools) {
      berths_of_pool_.push_back(pool.places);
      for (const int block : pool.blocks) {
        if (lies[block]) continue;
        berths_of_pool_.back().push_back(berths());
        pool_.push_back(static_cast<int>(berths_of_pool_.size()) - 1);
        held_.push_back({block, task_.freedom.forms[block].front()});
      }
    }
  }

  /// Counts anew what lies in a berth.
  void look(int berth) {
    sum_ -= own_[berth];
    own_[berth] = copies_->conflicts(prints_in(berth), berth);
    sum_ += own_[berth];
    const bool listed = where_[berth] != kNone;
    const bool lists = own_[berth] > 0 && pool_[berth] != kNone;
    if (lists == listed) return;
    if (lists) {
      where_[berth] = static_cast<int>(in_conflict_.size());
      in_conflict_.push_back(berth);
      return;
    }
    const int last = in_conflict_.back();
    in_conflict_[where_[berth]] = last;
    where_[last] = where_[berth];
    in_conflict_.pop_back();
    where_[berth] = kNone;
  }

  double deviate() { return -std::log(1 - rng_.uniform()); }

  /// What an exchange adds to the conflicts, each counted once.
  int change_of(int a, int b) const {
    int change = copies_->conflicts(prints_in(a), b) + copies_->conflicts(prints_in(b), a) - own_[a] - own_[b];
    if (!copies_->near(a, b)) return change;
    return change - static_cast<int>(prints_in(a).size() + prints_in(b).size()) + 2 * in_common(a, b);
  }

  bool tabu(int from, int to) {
    for (const int print : prints_in(from)) {
      if (until(print, to) > now_) return true;
    }
    return false;
  }

  int in_common(int a, int b) const {
    int common = 0;
    for (const int print : prints_in(a)) {
      common += std::count(prints_in(b).begin(), prints_in(b).end(), print) > 0 ? 1 : 0;
    }
    return common;
  }

  /// Prices what lies in a with every other of its pool.
  std::int64_t try_all(int a, Best& best) {
    const std::vector<int>& partners = berths_of_pool_[pool_[a]];
    const std::span<const int> leaving = prints_in(a);
    for (int print = 0; print < static_cast<int>(coming_.size()); ++print) coming_[print] = copies_->count(print, a);
    for (const int b : copies_->near_to(a)) is_near_[b] = 1;
    for (const int b : partners) {
      int change = -own_[a] - own_[b];
      for (const int print : leaving) change += copies_->count(print, b);
      for (const int print : prints_in(b)) change += coming_[print];
      if (is_near_[b] != 0) {
        change -= static_cast<int>(leaving.size() + prints_in(b).size());
        if (change <= best.change) change += 2 * in_common(a, b);
      }
      if (change > best.change || kind_in(a) == kind_in(b)) continue;
      if (sum_ + 2 * change >= best.bar && (tabu(a, b) || tabu(b, a))) continue;
      if (change < best.change) best.ties = 0;
      if (rng_.below(++best.ties) != 0) continue;
      best.change = change;
      best.a = a;
      best.b = b;
    }
    for (const int b : copies_->near_to(a)) is_near_[b] = 0;
    return static_cast<std::int64_t>(partners.size());
  }

  void exchange(int a, int b) {
    const auto stay = static_cast<std::int64_t>(3 * in_conflict_.size() / 5);
    for (const int print : prints_in(a)) until(print, a) = now_ + 1 + stay + rng_.below(10);
    for (const int print : prints_in(b)) until(print, b) = now_ + 1 + stay + rng_.below(10);
    for (const int berth : {a, b}) copies_->change(prints_in(berth), berth, -1);
    std::swap(held_[a], held_[b]);
    for (const int berth : {a, b}) copies_->change(prints_in(berth), berth, 1);
    for (const int berth : {a, b}) {
      look(berth);
      for (const int other : copies_->near_to(berth)) look(other);
    }
  }

  const Task& task_;
  const std::vector<std::vector<int>>& prints_;
  int places_ = 0;
  std::vector<Held> held_;  ///< by berth
  Rng rng_;
  std::vector<int> pool_;  ///< by berth
  std::vector<std::vector<int>> berths_of_pool_;
  std::optional<NearCopies> copies_;
  std::vector<int> own_;          ///< by berth: conflicts of what lies there
  std::vector<int> in_conflict_;  ///< berths that may move
  std::vector<int> where_;        ///< by berth: in that list
  std::vector<int> coming_;       ///< scratch: by print, the copies near one berth
  std::vector<char> is_near_;     ///< scratch: by berth
  std::vector<std::int64_t> until_;
  std::int64_t now_ = 0;
  int sum_ = 0;
};

}  // namespace

ApartSearch::ApartSearch(const Task& task, RankOfDistance rank_of, int ranks)
    : task_(task), rank_of_(std::move(rank_of)), ranks_(ranks), prints_(prints_of_blocks(*task.model)) {}

int ApartSearch::closest(const std::vector<Held>& held) const {
  std::vector<std::vector<int>> copies;
  int closest = ranks_;
  for (int i = 0; i < static_cast<int>(held.size()); ++i) {
    for (const int print : prints_[held[i].block]) {
      copies.resize(std::max(copies.size(), static_cast<std::size_t>(print) + 1));
      for (const int other : copies[print]) closest = std::min(closest, rank_of_(other, i));
      copies[print].push_back(i);
    }
  }
  return closest;
}

Apart ApartSearch::at_least(std::vector<Held> start, int rank, double patience, Seed seed,
                            const std::function<bool()>& go_on) const {
  const int places = static_cast<int>(start.size());
  Colouring colouring(task_, prints_, start, nearer_than(places, rank, rank_of_), seed);
  int least = colouring.conflicts();
  if (colouring.is_stuck()) patience = 0;
  double left = patience * places / 2;
  while (colouring.conflicts() > 0 && left > 0 && colouring.can_move() && go_on()) {
    left -= static_cast<double>(colouring.step(least));
    least = std::min(least, colouring.conflicts());
  }
  colouring.cool(static_cast<std::int64_t>(patience * places / 2), go_on);
  if (colouring.conflicts() == 0) start = colouring.layout();
  const int reached = closest(start);
  return {std::move(start), reached};
}

Apart ApartSearch::raised(std::vector<Held> start, double patience, Seed seed,
                          const std::function<bool()>& go_on) const {
  const int first = closest(start);
  Apart best{std::move(start), first};
  while (best.rank < ranks_) {
    Apart next = at_least(best.held, best.rank + 1, patience, derived(seed, best.rank), go_on);
    if (next.rank <= best.rank) break;
    best = std::move(next);
  }
  return best;
}

}  // namespace farflung::arrange
