// Gaussian windows on places of a lattice, holes and all, without a table of every two places.
#pragma once

#include <span>
#include <vector>

#include "score/places.hpp"

namespace farflung::score {

/// Where places lie, as whole steps from the top left, and how many pitches a step spans.
struct LatticeSteps {
  explicit LatticeSteps(const Places& places);

  int wide = 0, high = 0;            ///< points of the lattice across and down
  double across = 0, down = 0;       ///< pitches a step
  std::vector<int> column, row;      ///< by place
  std::vector<int> row_start;        ///< by row, its first place; one more at the end
  std::vector<int> places_of_point;  ///< by row, column: its place or kNone
};

/// K(i, j) = sum over scales s of share sum_k G_s(k, i) G_s(k, j), G_s(k, i) = exp(-d(k, i)^2 / 2 s^2) / Z_k, Z_k its
/// sum over all places i. Since d(k, i)^2 + d(k, j)^2 = 2 d(k, m)^2 + d(i, j)^2 / 2, m half way between i and j,
///
///   K(i, j) = sum over s of exp(-d(i, j)^2 / 4 s^2) M_s(m),  M_s(m) = share sum_k exp(-d(k, m)^2 / s^2) / Z_k^2
///
/// exactly, and M_s is a table over the points half way: some megabytes for 10,000 places.
class LatticeWindows {
 public:
  LatticeWindows(const Places& places, std::span<const double> scales, double share);

  /// K(i, j) of two places; symmetric.
  double at(int i, int j) const;
  double numbers() const;  ///< how many its tables hold

  /// to[i] += weight * at(i, j) for every i; what a double beside the nearest would not keep is left out.
  void add_column(int j, double weight, std::span<double> to) const;

 private:
  struct Scale {
    std::vector<double> across, down;  ///< exp(-d^2 / 4 s^2) by steps
    std::vector<double> middle;        ///< M_s by sums of rows, sums of columns
    int reach_across = 0, reach_down = 0;
  };

  LatticeSteps steps_;
  std::vector<Scale> scales_;
};

/// sum over i of G_s(i, j), by place j.
std::vector<double> lattice_window_sums(const Places& places, double scale);

}  // namespace farflung::score
