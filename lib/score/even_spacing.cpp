#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <numeric>

#include "score/explain.hpp"

namespace farflung::score {
namespace {

double squared_distance(const Places& places, int i, int j) {
  const double dx = places.x[i] - places.x[j];
  const double dy = places.y[i] - places.y[j];
  return dx * dx + dy * dy;
}

/// A lattice of whole steps: every point is a (step, 0) + b (shift, rise).
struct Steps {
  int step = 1, shift = 0, rise = 1;
};

/// The shortest step of a lattice, squared, on places sx by sy pitches apart.
double shortest(const Steps& steps, double sx, double sy) {
  double least = std::numeric_limits<double>::max();
  for (int b = 0; b <= steps.step; ++b) {
    for (int a = -steps.step - 1; a <= steps.step + 1; ++a) {
      const double x = sx * (a * steps.step + b * steps.shift);
      const double y = sy * b * steps.rise;
      if (x != 0 || y != 0) least = std::min(least, x * x + y * y);
    }
  }
  return least;
}

/// The most points of a lattice that a grid holds, over all places of the lattice's origin.
int most_points(const Steps& steps, int rows, int columns) {
  int most = 0;
  for (int first_row = 0; first_row < steps.rise && first_row < rows; ++first_row) {
    for (int first = 0; first < steps.step; ++first) {
      int points = 0;
      for (int r = first_row, at = first; r < rows; r += steps.rise, at = (at + steps.shift) % steps.step) {
        points += at < columns ? (columns - 1 - at) / steps.step + 1 : 0;
      }
      most = std::max(most, points);
    }
  }
  return most;
}

double best_lattice(const Places& places, int copies) {
  const double sx = places.columns > 1 ? places.x[1] - places.x[0] : 1;
  const double sy = places.rows > 1 ? places.y[places.columns] - places.y[0] : 1;
  const int widest = 2 * (places.rows + places.columns) / std::max(1, static_cast<int>(std::sqrt(copies))) + 2;
  double best = 0;
  for (int rise = 1; rise <= std::min(places.rows, widest); ++rise) {
    for (int step = 1; step <= std::min(places.columns, widest); ++step) {
      if (places.count() > 4.0 * rise * step * copies) continue;  // far too many points: a wider one will do better
      for (int shift = 0; shift < step; ++shift) {
        const Steps steps{step, shift, rise};
        const double distance = shortest(steps, sx, sy);
        if (distance > best && most_points(steps, places.rows, places.columns) >= copies) best = distance;
      }
    }
  }
  return best;
}

/// Spreads copies from one place on, each as far from the others as can be; then moves the closest ones while that
/// helps.
double spread_from(const Places& places, int copies, int first) {
  std::vector<int> chosen{first};
  std::vector<double> nearest(places.count());
  for (int i = 0; i < places.count(); ++i) nearest[i] = squared_distance(places, i, first);
  while (static_cast<int>(chosen.size()) < copies) {
    const int next = static_cast<int>(std::max_element(nearest.begin(), nearest.end()) - nearest.begin());
    chosen.push_back(next);
    for (int i = 0; i < places.count(); ++i) nearest[i] = std::min(nearest[i], squared_distance(places, i, next));
  }
  const auto least_from = [&](int place, int but) {
    double least = std::numeric_limits<double>::max();
    for (int k = 0; k < copies; ++k) {
      if (k != but) least = std::min(least, squared_distance(places, place, chosen[k]));
    }
    return least;
  };
  for (int round = 0; round < 8; ++round) {
    bool moved = false;
    for (int k = 0; k < copies; ++k) {
      double best = least_from(chosen[k], k);
      for (int i = 0; i < places.count(); ++i) {
        const double least = least_from(i, k);
        if (least > best + 1e-9) {
          best = least;
          chosen[k] = i;
          moved = true;
        }
      }
    }
    if (!moved) break;
  }
  double least = std::numeric_limits<double>::max();
  for (int k = 0; k < copies; ++k) least = std::min(least, least_from(chosen[k], k));
  return least;
}

}  // namespace

double even_spacing(const Places& places, int copies) {
  const int n = places.count();
  if (copies < 2 || copies > n) return 0;
  double best = places.full_grid ? best_lattice(places, copies) : 0;
  const double work = static_cast<double>(n) * copies * copies;
  const int starts = work > 3e7 ? 0 : (work > 2e6 ? 2 : 6);
  for (int start = 0; start < starts; ++start) {
    best = std::max(best, spread_from(places, copies, static_cast<int>(static_cast<std::int64_t>(n - 1) * start / 6)));
  }
  return std::sqrt(best);
}

}  // namespace farflung::score
