#include "swap/packing_bound.hpp"

#include <algorithm>
#include <limits>
#include <map>

namespace farflung::swap {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kTiny = 1e-9;

/// Parallel arcs as one row with a capacity; vertices numbered from 0.
struct Rows {
  std::vector<Way> arcs;
  std::vector<double> capacity;
  int vertices = 0;

  explicit Rows(const std::vector<Way>& given) {
    std::map<int, int> number;
    std::map<Way, int> row;
    const auto numbered = [&](int vertex) {
      return number.try_emplace(vertex, static_cast<int>(number.size())).first->second;
    };
    for (const Way& arc : given) {
      const Way here{numbered(arc.from), numbered(arc.to)};
      const auto [at, fresh] = row.try_emplace(here, static_cast<int>(arcs.size()));
      if (fresh) {
        arcs.push_back(here);
        capacity.push_back(0);
      }
      capacity[at->second] += 1;
    }
    vertices = static_cast<int>(number.size());
  }
};

struct Cycle {
  std::vector<int> rows;
  double weight = kInfinity;
};

/// The cycle of least weight, by Dijkstra's way from every vertex back to itself. Weights at least 0.
Cycle lightest_cycle(const Rows& rows, const std::vector<std::vector<int>>& leaving,
                     const std::vector<double>& weight) {
  Cycle best;
  const int n = rows.vertices;
  std::vector<double> distance(n);
  std::vector<int> by(n);
  std::vector<bool> done(n);
  for (int start = 0; start < n; ++start) {
    std::fill(distance.begin(), distance.end(), kInfinity);
    std::fill(done.begin(), done.end(), false);
    double back = kInfinity;
    int last = -1;
    // The start is left at 0 and may be reached again: its own distance is that of the way back.
    const auto relax = [&](int vertex, double so_far) {
      for (const int row : leaving[vertex]) {
        const double length = so_far + weight[row];
        const int to = rows.arcs[row].to;
        if (to == start) {
          if (length < back) back = length, last = row;
        } else if (length < distance[to]) {
          distance[to] = length;
          by[to] = row;
        }
      }
    };
    relax(start, 0);
    for (;;) {
      int next = -1;
      for (int v = 0; v < n; ++v) {
        if (!done[v] && distance[v] < kInfinity && (next < 0 || distance[v] < distance[next])) next = v;
      }
      if (next < 0 || distance[next] >= std::min(back, best.weight)) break;
      done[next] = true;
      relax(next, distance[next]);
    }
    if (back >= best.weight) continue;
    best.weight = back;
    best.rows = {last};
    for (int vertex = rows.arcs[last].from; vertex != start; vertex = rows.arcs[best.rows.back()].from) {
      best.rows.push_back(by[vertex]);
    }
  }
  return best;
}

/// Revised simplex with the inverse of the basis kept whole. A basic column is a slack or a cycle.
class Simplex {
 public:
  explicit Simplex(const Rows& rows) : size_(static_cast<int>(rows.arcs.size())) {
    inverse_.assign(static_cast<std::size_t>(size_) * size_, 0.0);
    for (int r = 0; r < size_; ++r) {
      at(r, r) = 1;
      // Unequal right-hand sides keep the method from going in circles.
      value_.push_back(rows.capacity[r] + 1e-5 * ((r * 7919) % 1009 + 1) / 1009);
      gain_.push_back(0);
    }
  }

  std::vector<double> duals() const {
    std::vector<double> y(size_, 0.0);
    for (int r = 0; r < size_; ++r) {
      if (gain_[r] == 0) continue;
      for (int c = 0; c < size_; ++c) y[c] += gain_[r] * at(r, c);
    }
    return y;
  }

  /// Brings in a column that covers `rows` and gains `gain`; false where nothing can leave for it.
  bool enter(const std::vector<int>& rows, double gain) {
    std::vector<double> column(size_, 0.0);
    for (int r = 0; r < size_; ++r) {
      for (const int c : rows) column[r] += at(r, c);
    }
    int leave = -1;
    for (int r = 0; r < size_; ++r) {
      if (column[r] > kTiny && (leave < 0 || value_[r] * column[leave] < value_[leave] * column[r])) leave = r;
    }
    if (leave < 0) return false;
    const double step = value_[leave] / column[leave];
    for (int c = 0; c < size_; ++c) at(leave, c) /= column[leave];
    for (int r = 0; r < size_; ++r) {
      if (r == leave || column[r] == 0) continue;
      for (int c = 0; c < size_; ++c) at(r, c) -= column[r] * at(leave, c);
      value_[r] = std::max(0.0, value_[r] - column[r] * step);
    }
    value_[leave] = step;
    gain_[leave] = gain;
    return true;
  }

 private:
  double& at(int r, int c) { return inverse_[static_cast<std::size_t>(r) * size_ + c]; }
  double at(int r, int c) const { return inverse_[static_cast<std::size_t>(r) * size_ + c]; }

  int size_;
  std::vector<double> inverse_, value_, gain_;
};

}  // namespace

double packing_bound(const std::vector<Way>& arcs) {
  const Rows rows(arcs);
  if (rows.arcs.empty()) return 0;
  std::vector<std::vector<int>> leaving(rows.vertices);
  for (int r = 0; r < static_cast<int>(rows.arcs.size()); ++r) leaving[rows.arcs[r].from].push_back(r);
  Simplex simplex(rows);
  double bound = kInfinity;
  const int most_pivots = 20 * static_cast<int>(rows.arcs.size()) + 100;
  for (int pivot = 0; pivot < most_pivots; ++pivot) {
    std::vector<double> y = simplex.duals();
    const auto least = std::min_element(y.begin(), y.end());
    if (*least < -kTiny) {
      if (!simplex.enter({static_cast<int>(least - y.begin())}, 0)) break;
      continue;
    }
    for (double& each : y) each = std::max(each, 0.0);
    const Cycle cycle = lightest_cycle(rows, leaving, y);
    if (cycle.weight == kInfinity) return 0;
    if (cycle.weight > 0) {
      // Scaled so that every cycle weighs 1 or more, the duals are feasible.
      double sum = 0;
      for (std::size_t r = 0; r < y.size(); ++r) sum += y[r] * rows.capacity[r];
      bound = std::min(bound, sum / cycle.weight);
    }
    if (cycle.weight > 1 - 1e-7 || !simplex.enter(cycle.rows, 1)) break;
  }
  return std::min(bound, static_cast<double>(arcs.size())) + 1e-6;
}

}  // namespace farflung::swap
