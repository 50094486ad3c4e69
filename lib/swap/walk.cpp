#include "swap/walk.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace farflung::swap {
namespace {

constexpr double kUnreached = std::numeric_limits<double>::infinity();

/// Least trees over runs of a round that do not cross: `open` over i..j, `closed` with i and j joined.
class Trees {
 public:
  Trees(const Round& round, const Distances& distance) : round_(round), size_(static_cast<int>(round.size())) {
    const std::size_t cells = static_cast<std::size_t>(size_) * size_;
    open_.assign(cells, {0, 0});
    closed_.assign(cells, {kUnreached, 0});
    for (int length = 1; length < size_; ++length) {
      for (int i = 0; i + length < size_; ++i) find(i, i + length, distance(round[i], round[i + length]));
    }
  }

  std::vector<Trip> trips() {
    take_open(0, size_ - 1);
    return std::move(trips_);
  }

 private:
  struct Least {
    double length = 0;
    int cut = 0;
  };

  std::size_t index(int i, int j) const { return static_cast<std::size_t>(i) * size_ + j; }

  void find(int i, int j, double distance) {
    Least closed{kUnreached, i};
    for (int k = i; k < j; ++k) {
      const double length = open_[index(i, k)].length + open_[index(k + 1, j)].length + distance;
      if (length < closed.length) closed = {length, k};
    }
    closed_[index(i, j)] = closed;
    Least open{kUnreached, j};
    for (int k = i + 1; k <= j; ++k) {
      const double length = closed_[index(i, k)].length + open_[index(k, j)].length;
      if (length < open.length) open = {length, k};
    }
    open_[index(i, j)] = open;
  }

  void take_open(int i, int j) {
    while (i < j) {
      const int k = open_[index(i, j)].cut;
      trips_.push_back({round_[i], round_[k]});
      const int cut = closed_[index(i, k)].cut;
      take_open(i, cut);
      take_open(cut + 1, k);
      i = k;
    }
  }

  const Round& round_;
  int size_;
  std::vector<Least> open_, closed_;
  std::vector<Trip> trips_;
};

/// The walk by the best choice of the cell where each trip starts and ends.
class Walker {
 public:
  explicit Walker(const Distances& distance) : distance_(distance) {}

  void go(const Trip& trip) {
    const double there_and_back = 2 * distance_(trip.a, trip.b);
    double to_a = 0, to_b = 0;
    if (started_) {
      to_a = std::min(at_a_ + distance_(last_.a, trip.a), at_b_ + distance_(last_.b, trip.a));
      to_b = std::min(at_a_ + distance_(last_.a, trip.b), at_b_ + distance_(last_.b, trip.b));
    }
    at_a_ = to_a + there_and_back;
    at_b_ = to_b + there_and_back;
    last_ = trip;
    started_ = true;
  }
  double walked() const { return started_ ? std::min(at_a_, at_b_) : 0; }

 private:
  const Distances& distance_;
  bool started_ = false;
  Trip last_;
  double at_a_ = 0, at_b_ = 0;
};

double apart(const Trip& s, const Trip& t, const Distances& distance) {
  return std::min({distance(s.a, t.a), distance(s.a, t.b), distance(s.b, t.a), distance(s.b, t.b)});
}

/// From one trip to the nearest that may come next; sometimes, by lot, to the one after that.
std::vector<Trip> by_the_nearest(const std::vector<Trip>& trips, const Distances& distance, std::size_t first,
                                 Rng* rng) {
  std::vector<bool> gone(trips.size(), false);
  std::vector<Trip> order;
  const auto free = [&](std::size_t t) {
    for (std::size_t before = 0; before < t; ++before) {
      if (!gone[before] && share_a_site(trips[before], trips[t])) return false;
    }
    return true;
  };
  if (!free(first)) return {};
  std::size_t at = first;
  for (;;) {
    gone[at] = true;
    order.push_back(trips[at]);
    std::vector<std::pair<double, std::size_t>> next;
    for (std::size_t t = 0; t < trips.size(); ++t) {
      if (!gone[t] && free(t)) next.emplace_back(apart(trips[at], trips[t], distance), t);
    }
    if (next.empty()) return order;
    std::sort(next.begin(), next.end());
    const bool second = rng != nullptr && next.size() > 1 && rng->below(6) == 0;
    at = next[second ? 1 : 0].second;
  }
}

/// Whether what lies at i..j could be turned round.
bool may_reverse(const std::vector<Trip>& order, std::size_t i, std::size_t j) {
  for (std::size_t s = i; s < j; ++s) {
    for (std::size_t t = s + 1; t <= j; ++t) {
      if (share_a_site(order[s], order[t])) return false;
    }
  }
  return true;
}

/// Moves single trips and turns runs of them round while that shortens the walk.
double improve(std::vector<Trip>& order, const Distances& distance) {
  double best = walk(order, distance);
  const std::size_t n = order.size();
  const auto keep_if_shorter = [&](std::vector<Trip>& changed) {
    const double length = walk(changed, distance);
    if (length >= best - 1e-9) return false;
    best = length;
    order.swap(changed);
    return true;
  };
  for (bool better = true; better;) {
    better = false;
    for (std::size_t i = 0; i < n && !better; ++i) {
      for (const int way : {1, -1}) {
        std::vector<Trip> changed = order;
        for (std::size_t at = i; way > 0 ? at + 1 < n : at > 0; at += static_cast<std::size_t>(way)) {
          const std::size_t next = at + static_cast<std::size_t>(way);
          if (share_a_site(changed[at], changed[next])) break;
          std::swap(changed[at], changed[next]);
          std::vector<Trip> copy = changed;
          if (keep_if_shorter(copy)) {
            better = true;
            break;
          }
        }
        if (better) break;
      }
      for (std::size_t j = i + 1; j < n && !better && may_reverse(order, i, j); ++j) {
        std::vector<Trip> changed = order;
        std::reverse(changed.begin() + static_cast<std::ptrdiff_t>(i),
                     changed.begin() + static_cast<std::ptrdiff_t>(j) + 1);
        better = keep_if_shorter(changed);
      }
    }
  }
  return best;
}

}  // namespace

bool share_a_site(const Trip& s, const Trip& t) { return s.a == t.a || s.a == t.b || s.b == t.a || s.b == t.b; }

Distances::Distances(const setting::Plan& plan) {
  for (const setting::Cell& cell : plan.cells) {
    x_.push_back(cell.centre.x.inches());
    y_.push_back(cell.centre.y.inches());
  }
}

Distances::Distances(const setting::Plan& plan, const Sites& sites) {
  for (const Site& site : sites.sites()) {
    const Point first = plan.cells[site.cells.front()].centre;
    const Point last = plan.cells[site.cells.back()].centre;
    x_.push_back((first.x + last.x).inches() / 2);
    y_.push_back((first.y + last.y).inches() / 2);
  }
}

double Distances::operator()(int a, int b) const { return std::hypot(x_[a] - x_[b], y_[a] - y_[b]); }

std::vector<Trip> trips_of(const Round& round, const Distances& distance) { return Trees(round, distance).trips(); }

std::vector<Trip> settling_order(const Round& round, std::vector<Trip> trips) {
  const int size = static_cast<int>(round.size());
  const auto position = [&](int cell) {
    return static_cast<int>(std::find(round.begin(), round.end(), cell) - round.begin());
  };
  /// x lies on the way round from just after i up to j.
  const auto within = [&](int x, int i, int j) { return (x - i - 1 + size) % size < (j - i + size) % size; };
  std::vector<Trip> order;
  while (!trips.empty()) {
    // A swap of i and j parts the round into the cells after i up to j and those after j up to i: it may be made when
    // the trips left at j all lie in the first part, those at i in the second.
    const auto ready = std::find_if(trips.begin(), trips.end(), [&](const Trip& trip) {
      const int i = position(trip.a);
      const int j = position(trip.b);
      return std::all_of(trips.begin(), trips.end(), [&](const Trip& other) {
        if (other == trip || !share_a_site(trip, other)) return true;
        const bool at_a = other.a == trip.a || other.b == trip.a;
        const int shared = at_a ? trip.a : trip.b;
        const int x = position(other.a == shared ? other.b : other.a);
        return at_a ? within(x, j, i) : within(x, i, j);
      });
    });
    assert(ready != trips.end());
    order.push_back(*ready);
    trips.erase(ready);
  }
  return order;
}

double walk(const std::vector<Trip>& trips, const Distances& distance) {
  Walker walker(distance);
  for (const Trip& trip : trips) walker.go(trip);
  return walker.walked();
}

std::vector<Trip> shortest_walk(const std::vector<Trip>& trips, const Distances& distance, Seed seed) {
  if (trips.size() < 3) return trips;
  Rng rng(seed);
  std::vector<Trip> best = trips;
  double least = walk(best, distance);
  const auto offer = [&](std::vector<Trip> order) {
    if (order.empty()) return;
    const double length = trips.size() <= 100 ? improve(order, distance) : walk(order, distance);
    if (length < least) least = length, best = std::move(order);
  };
  const std::size_t starts = std::min<std::size_t>(trips.size(), 8);
  for (std::size_t k = 0; k < starts; ++k) {
    const auto first = rng.below(static_cast<std::uint32_t>(trips.size()));
    offer(by_the_nearest(trips, distance, first, k < 4 ? nullptr : &rng));
  }
  offer(by_the_nearest(trips, distance, 0, nullptr));
  return best;
}

}  // namespace farflung::swap
